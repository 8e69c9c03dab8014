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
    /// <param name="mechanism">The spec's drivetrain, with what was measured where it is known.</param>
    internal static FittedSpec Of(SpecFile spec, PartLibrary library, DrivetrainSpec mechanism)
    {
        ArgumentNullException.ThrowIfNull(library);
        var build = SpecParts.BuildOf(spec).WithAdapters(library.Of(PartKind.Adapter));
        var choice = ChainChooser.Choose(mechanism);
        var table = GearTableSolver.Solve(mechanism, ChainChooser.PitchesFor(mechanism, choice));
        return new(
            new(
                build,
                CompatibilityReport.Of(build, mechanism, spec.Deviations),
                QuantityCatalogue.Of(mechanism, choice, table),
                spec.Work
            ),
            table
        );
    }
}
