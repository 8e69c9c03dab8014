using Cogwright.Drivetrain;
using Cogwright.Files;
using Cogwright.Setup;
using Cogwright.Setup.Catalogue;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;

namespace Cogwright.Facts.Records;

/// <summary>What steps ask for on a bike as its spec is, worked out only when a step is asked about.</summary>
internal static class SpecAims
{
    /// <summary>The limits of a step by a spec; null when the spec cannot be worked out without anything beside it.</summary>
    internal static Func<ProcedureStep, StepAim?>? Of(SpecSheet sheet)
    {
        if (sheet.Check().Spec is not { } file)
        {
            return null;
        }
        var review = new Lazy<StepReview?>(() =>
        {
            var choice = ChainChooser.Choose(file.Drivetrain);
            var pitches = ChainChooser.PitchesFor(file.Drivetrain, choice);
            var table =
                choice.Table is { } chosen && chosen.Pitches == pitches
                    ? chosen
                    : GearTableSolver.Solve(file.Drivetrain, pitches);
            var catalogue = QuantityCatalogue.Of(file.Drivetrain, choice, table);
            return WorkCheck.Problems(catalogue, file.Work).IsEmpty
                ? new(catalogue, file.Work, TargetList.Make(catalogue, file.Work))
                : null;
        });
        return step => Of(review.Value, step);
    }

    /// <summary>The limits of a step; null when it asks for no number or nothing is known of the bike.</summary>
    internal static StepAim? Of(StepReview? review, ProcedureStep step) =>
        review is null ? null
        : step.Torque is { } torque ? review.AimOf(torque)
        : step.Check is { HasNumber: true } check ? review.AimOf(check)
        : null;
}
