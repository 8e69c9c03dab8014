using Cogwright.Cli.Commands;
using Cogwright.Drivetrain;
using Cogwright.Files;
using Cogwright.Gearing;

namespace Cogwright.Cli.Output;

/// <summary>A ride with all that is told of it.</summary>
/// <param name="Settings">What was asked.</param>
/// <param name="Spec">The bike.</param>
/// <param name="Question">Road, rider, gears.</param>
/// <param name="Remarks">What the reader of the road remarked.</param>
/// <param name="Result">What came of it.</param>
internal sealed record RideOutput(
    RideSettings Settings,
    DrivetrainSpec Spec,
    RideQuestion Question,
    IReadOnlyList<FileProblem> Remarks,
    RideResult Result
)
{
    /// <summary>The power that the rider holds for the time that the road takes (W), when it was asked for so; else null.</summary>
    internal double? HeldW { get; init; }

    /// <summary>What to know of that power, or null.</summary>
    internal string? HeldNote { get; init; }

    /// <summary>Between what the lowest gear's cadence on the steepest minute lies with what is assumed, or null when it is not pedalled.</summary>
    internal RpmSpread? Spread { get; init; }
}
