using System.Collections.Immutable;
using Cogwright.Drivetrain.Bench;
using Cogwright.Files;
using Cogwright.Parts;
using Cogwright.Setup;
using Cogwright.Setup.Swap;

namespace Cogwright.Web.Parts;

/// <summary>The parts of the bike on the stand, and what the rules say of them. Immutable.</summary>
public sealed class PartsOnBike
{
    private readonly SpecFitting fitting;
    private readonly PartLibrary library;

    private PartsOnBike(SpecFitting fitting, PartLibrary library)
    {
        this.fitting = fitting;
        this.library = library;
        Now = fitting.Judge(library);
    }

    /// <summary>The bike as it is.</summary>
    public FittedSpec Now { get; }

    /// <summary>Reads the bike's parts; null when its spec has errors.</summary>
    /// <param name="sheet">The spec.</param>
    /// <param name="library">The library of parts.</param>
    /// <param name="fit">What was measured on the bike comes to; null: nothing was, or it is not worked out.</param>
    public static PartsOnBike? Of(SpecSheet sheet, PartLibrary library, BenchFit? fit)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(library);
        var (fitting, _) = SpecFitting.Of(sheet.ToYaml(), sheet["name"] ?? "", library);
        return fitting is null ? null
            : fit is null ? new(fitting, library)
            : new(fitting.With(fit), library);
    }

    /// <summary>Whether the bike was measured and that is not in the answers: the classes' figures stand in them.</summary>
    public bool IsWithoutMeasured => fitting.IsMeasured && Now.Table.Spec.Fitted.IsEmpty;

    /// <summary>What comes of fitting these parts, before the bike is touched.</summary>
    public PartTrial Try(params IEnumerable<Part> parts)
    {
        var build = parts.Aggregate(fitting.Build, (all, part) => all.With(part));
        var reading = fitting.Fit(build, keepsChain: true);
        if (reading.Spec is not { } spec)
        {
            return new([.. parts], null, null, reading.Problems);
        }
        var after = fitting.Judge(spec, library);
        return new(
            [.. parts],
            after,
            WorkCheck.Problems(after.Side.Catalogue, after.Side.Work).IsEmpty
                ? SwapReview.Of(Now.Side, after.Side)
                : null,
            reading.Problems
        );
    }

    /// <summary>What a search for parts starts from.</summary>
    public OptionQuestion Question(ImmutableArray<PartKind> kinds, bool inStock, int most) =>
        fitting.Ask(library, kinds, inStock, most);

    /// <summary>What a search for rings and cassettes to be ridden starts from.</summary>
    public OptionQuestion RideQuestion() =>
        RideSets.Question(fitting, library, RideSets.Kinds, inStockOnly: false);
}

/// <summary>Parts that somebody thinks of fitting. Immutable.</summary>
/// <param name="Parts">The parts.</param>
/// <param name="After">The bike with them; null when its spec would have errors.</param>
/// <param name="Review">What comes of it; null when there is no such bike, or no work can be done on it.</param>
/// <param name="Problems">What would be wrong with the spec.</param>
public sealed record PartTrial(
    ImmutableArray<Part> Parts,
    FittedSpec? After,
    SwapReview? Review,
    ImmutableArray<FileProblem> Problems
);
