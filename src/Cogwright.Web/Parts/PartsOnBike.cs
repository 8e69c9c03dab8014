using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Files;
using Cogwright.Parts;
using Cogwright.Setup;
using Cogwright.Setup.Catalogue;
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
        Now = Side(fitting.Spec, fitting.Build);
    }

    /// <summary>The bike as it is.</summary>
    public FittedBike Now { get; }

    /// <summary>Reads the bike's parts; null when its spec has errors.</summary>
    public static PartsOnBike? Of(SpecSheet sheet, PartLibrary library)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(library);
        var (fitting, _) = SpecFitting.Of(sheet.ToYaml(), sheet["name"] ?? "", library);
        return fitting is null ? null : new(fitting, library);
    }

    /// <summary>What comes of fitting these parts, before the bike is touched.</summary>
    public PartTrial Try(params IEnumerable<Part> parts)
    {
        var build = parts.Aggregate(fitting.Build, (all, part) => all.With(part));
        var reading = fitting.Fit(build, keepsChain: true);
        if (reading.Spec is not { } spec)
        {
            return new([.. parts], null, null, reading.Problems);
        }
        var after = Side(spec, SpecParts.BuildOf(spec));
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
    public OptionQuestion Question(IEnumerable<PartKind> kinds, bool inStock, int most) =>
        new()
        {
            Now = Now.Side.Build,
            Candidates = kinds.ToImmutableDictionary(
                kind => kind,
                kind =>
                    library.Of(kind).Where(part => !inStock || part.InStock > 0).ToImmutableArray()
            ),
            Most = most,
            SpecOf = build => fitting.Fit(build).Spec?.Drivetrain,
        };

    private FittedBike Side(SpecFile spec, Build build)
    {
        var whole = build.WithAdapters(library.Of(PartKind.Adapter));
        var choice = ChainChooser.Choose(spec.Drivetrain);
        var table = GearTableSolver.Solve(
            spec.Drivetrain,
            ChainChooser.PitchesFor(spec.Drivetrain, choice)
        );
        return new(
            new(
                whole,
                CompatibilityReport.Of(whole, spec.Drivetrain, spec.Deviations),
                QuantityCatalogue.Of(spec.Drivetrain, choice, table),
                spec.Work
            ),
            table
        );
    }
}

/// <summary>A bike with its parts, solved. Immutable.</summary>
/// <param name="Side">What the rules and the model say.</param>
/// <param name="Table">All gears, for the drawings.</param>
public sealed record FittedBike(SwapSide Side, GearTable Table);

/// <summary>Parts that somebody thinks of fitting. Immutable.</summary>
/// <param name="Parts">The parts.</param>
/// <param name="After">The bike with them; null when its spec would have errors.</param>
/// <param name="Review">What comes of it; null when there is no such bike, or no work can be done on it.</param>
/// <param name="Problems">What would be wrong with the spec.</param>
public sealed record PartTrial(
    ImmutableArray<Part> Parts,
    FittedBike? After,
    SwapReview? Review,
    ImmutableArray<FileProblem> Problems
);
