using System.Collections.Immutable;
using System.Text;
using Cogwright.Files;

namespace Cogwright.Web.Specs;

/// <summary>The few fields that make a bike computable: everything else a class or common practice stands in for.</summary>
public static class Essentials
{
    /// <summary>The list of rings.</summary>
    public const string Rings = "rings";

    /// <summary>Their paths, in the order of asking; the rings come as a list.</summary>
    public static ImmutableArray<string> Paths { get; } =
    [
        "name",
        "frame.class",
        "frame.chainstay",
        Rings,
        "cogs.teeth",
        "chain.pitches",
        "rearDerailleur.class",
        "hanger.class",
        "work.actuation",
    ];

    /// <summary>Those that apply to a sheet: a bike with one gear has no derailleur to ask for.</summary>
    public static ImmutableArray<string> Of(SheetFields fields)
    {
        ArgumentNullException.ThrowIfNull(fields);
        var there = fields.Groups.Select(group => group.Path).ToHashSet(StringComparer.Ordinal);
        return
        [
            .. Paths.Where(path =>
                !path.Contains('.', StringComparison.Ordinal)
                || there.Contains(path[..path.IndexOf('.', StringComparison.Ordinal)])
            ),
        ];
    }

    /// <summary>What a file of a bike is called: its name in small letters, with nothing that a file system minds.</summary>
    public static string FileName(SpecSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var name = new StringBuilder();
        foreach (var c in sheet["name"] ?? "")
        {
            if (char.IsLetterOrDigit(c))
            {
                name.Append(char.ToLowerInvariant(c));
            }
            else if (name.Length > 0 && name[^1] != '-')
            {
                name.Append('-');
            }
        }
        var trimmed = name.ToString().Trim('-');
        return (trimmed.Length == 0 ? "bike" : trimmed) + ".yaml";
    }
}
