using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Bench;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>
/// What was measured on a bike, for the same bike with other parts on it: the derailleur hangs where it was measured and moves
/// as it was measured, whatever cogs and rings it meets. Immutable.
/// </summary>
internal sealed class MeasuredGeometry(SpecFile before, BenchFit fit)
{
    private const string OfCogs = "cogs.";
    private const string OfRings = "rings[";

    /// <summary>The bike as it is, with what was measured.</summary>
    internal DrivetrainSpec Before => fit.Spec;

    /// <summary>Whether what was measured holds with these parts: nothing that it was measured on is replaced.</summary>
    internal bool HoldsWith(Build parts) =>
        PartKinds
            .All.Where(kind => before.Parts[kind]?.Id != parts[kind]?.Id)
            .All(kind => !PartOwned.OwnsMeasured(kind));

    /// <summary>The bike with other parts, with what was measured where it still holds.</summary>
    /// <param name="after">The spec with the other parts, without measurements of its own.</param>
    internal DrivetrainSpec On(SpecFile after)
    {
        var (old, now) = (before.Drivetrain, after.Drivetrain);
        if (!HoldsWith(after.Parts) || now.RearDerailleur is null || now.Hanger is null)
        {
            return now;
        }
        var sameCogs =
            old.Cogs.Teeth.SequenceEqual(now.Cogs.Teeth)
            && old.Cogs.SpacingMm == now.Cogs.SpacingMm;
        var sameRings = old
            .Rings.Select(ring => (ring.Teeth, ring.LateralMm))
            .SequenceEqual(now.Rings.Select(ring => (ring.Teeth, ring.LateralMm)));
        var with = now with
        {
            Frame = now.Frame with { ChainstayMm = fit.Spec.Frame.ChainstayMm },
            Hanger = fit.Spec.Hanger,
            RearDerailleur = fit.Spec.RearDerailleur,
            Cogs = sameCogs ? fit.Spec.Cogs : now.Cogs,
            Rings = sameRings ? fit.Spec.Rings : now.Rings,
            Fitted = [.. fit.Spec.Fitted.Where(value => Holds(value.Path))],
            Assumptions =
            [
                .. now
                    .Assumptions.Where(each =>
                        !Holds(each.Path) || fit.Spec.Fitted.All(value => value.Path != each.Path)
                    )
                    .Select(each =>
                        Holds(each.Path)
                            ? fit.Spec.Assumptions.FirstOrDefault(fitted =>
                                fitted.Path == each.Path
                            ) ?? each
                            : each
                    ),
            ],
        };
        // A mechanism that cannot be with the new part is told of by the part's own figures.
        return SpecCheck.Problems(with).IsEmpty ? with : now;

        bool Holds(string path) =>
            path.StartsWith(OfCogs, StringComparison.Ordinal)
                ? sameCogs
                : !path.StartsWith(OfRings, StringComparison.Ordinal) || sameRings;
    }
}
