using Cogwright.Drivetrain;
using Cogwright.Parts;
using Cogwright.Setup.Catalogue;
using Cogwright.Setup.Swap;

namespace Cogwright.Files;

/// <summary>A spec with its parts, judged and solved. Immutable.</summary>
/// <param name="Side">What the rules and the model say.</param>
/// <param name="Table">All gears, with the chain that is or will be fitted.</param>
public sealed record FittedSpec(SwapSide Side, GearTable Table)
{
    /// <summary>Judges and solves a spec.</summary>
    /// <param name="spec">The spec.</param>
    /// <param name="library">Where adapters at hand come from.</param>
    public static FittedSpec Of(SpecFile spec, PartLibrary library)
    {
        ArgumentNullException.ThrowIfNull(spec);
        ArgumentNullException.ThrowIfNull(library);
        var build = SpecParts.BuildOf(spec).WithAdapters(library.Of(PartKind.Adapter));
        var choice = ChainChooser.Choose(spec.Drivetrain);
        var table = GearTableSolver.Solve(
            spec.Drivetrain,
            ChainChooser.PitchesFor(spec.Drivetrain, choice)
        );
        return new(
            new(
                build,
                CompatibilityReport.Of(build, spec.Drivetrain, spec.Deviations),
                QuantityCatalogue.Of(spec.Drivetrain, choice, table),
                spec.Work
            ),
            table
        );
    }
}
