using System.Collections.Immutable;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>Which fields concern this bike: a bike with one gear has no derailleur, a rigid one no links.</summary>
internal sealed class SheetScope(SpecSheet sheet, Leaves leaves, bool isWhole)
{
    /// <summary>Groups inside groups that an editor shows on their own.</summary>
    private static readonly ImmutableHashSet<string> Apart =
    [
        "frame.suspension",
        "rearDerailleur.cage",
        "rearDerailleur.bodyAngleScrew",
        "rearDerailleur.sprung",
        "rearDerailleur.coaxial",
        "work.torques",
    ];

    private readonly bool hasDerailleur =
        leaves.HasGroup("rearDerailleur")
        || leaves.Find("cogs.teeth")?.Value is not ImmutableArray<int> { Length: 1 }
        || leaves.Count("rings") > 1;

    internal static bool StandsApart(string path) => Apart.Contains(path);

    /// <summary>Whether the field is what a single value of its group stands for.</summary>
    internal static bool IsMainValue(string tablePath) =>
        tablePath.StartsWith(MeasuredFields.Group + ".", StringComparison.Ordinal)
        && tablePath.EndsWith(".value", StringComparison.Ordinal);

    internal bool Applies(string path)
    {
        if (path == "format")
        {
            return false;
        }
        if (IsGiven(path))
        {
            return true;
        }
        return path != "rings[].oval"
            && !path.EndsWith("].oval", StringComparison.Ordinal)
            && (isWhole || Concerns(path));
    }

    private bool IsGiven(string path) =>
        sheet[path] is not null
        || sheet.Values.Keys.Any(key =>
            key.StartsWith(path, StringComparison.Ordinal)
            && key.Length > path.Length
            && key[path.Length] is '.' or '['
        );

    private bool Concerns(string path)
    {
        var kind = leaves.Text("frame.suspension.kind");
        var isCoaxial = IsGiven("rearDerailleur.coaxial");
        return path switch
        {
            "hanger" or "rearDerailleur.bodyAngleScrew" or "rearDerailleur.sprung" or "measured" =>
                hasDerailleur && !isCoaxial,
            "rearDerailleur" or "shifting" or "adjusters" or "idler" or "gearsNotUsed" =>
                hasDerailleur,
            "rearDerailleur.coaxial" => !IsGiven("hanger"),
            "frontDerailleur" or "crank.ringSpacing" => leaves.Count("rings") > 1,
            "frame.suspension.pivot" => kind == RearEndFields.SinglePivot,
            "frame.suspension.lowerLink"
            or "frame.suspension.upperLink"
            or "frame.suspension.axleOn" => kind == RearEndFields.FourBar,
            "frame.suspension.path" => kind == RearEndFields.Path,
            "frame.suspension.travel" or "frame.suspension.travelMeans" or "frame.suspension.sag" =>
                kind is not null,
            "frame.suspension.shock" => leaves.Text("frame.suspension.travelMeans")
                == RearEndFields.TravelMeanings[1],
            "frame.axleTravel" => kind is null,
            // Parts are chosen, and what deviates is accepted where it is told; neither is typed here.
            PartsFields.Group or DeviationFields.List => false,
            _ => true,
        };
    }
}
