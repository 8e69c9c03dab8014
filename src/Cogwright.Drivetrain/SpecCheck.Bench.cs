using System.Collections.Immutable;
using Cogwright.Drivetrain.Bench;

namespace Cogwright.Drivetrain;

/// <content>What was measured on the bench.</content>
public static partial class SpecCheck
{
    /// <summary>A caliper that is off by more than this measures nothing (mm).</summary>
    public const double MostReadingUncertaintyMm = 20;

    /// <summary>No screw of a derailleur has more turns.</summary>
    private const double MostScrewTurns = 20;

    private static void CheckMeasured(
        DrivetrainSpec spec,
        BenchMeasurements measured,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        if (spec.RearDerailleur is { Coaxial: not null })
        {
            problems.Add(new("measured", Texts.Get("check.measuredCoaxial")));
            return;
        }
        if (spec.RearDerailleur is null || spec.Hanger is null)
        {
            problems.Add(new("measured", Texts.Get("check.measuredNothing")));
            return;
        }
        foreach (var reading in measured.Readings)
        {
            var place = reading.Place;
            var path = $"measured.{BenchNames.Path(place.Distance)}";
            if (!(reading.ValueMm is > 0 and <= LongestMm))
            {
                problems.Add(
                    new(path, Texts.Get("check.measuredLength", reading.ValueMm, LongestMm))
                );
            }
            if (!(reading.UncertaintyMm is > 0 and <= MostReadingUncertaintyMm))
            {
                problems.Add(
                    new(
                        $"{path}.uncertainty",
                        Texts.Get(
                            "check.measuredUncertainty",
                            reading.UncertaintyMm,
                            MostReadingUncertaintyMm
                        )
                    )
                );
            }
            if (place.CogTeeth != 0 && !spec.Cogs.Teeth.Contains(place.CogTeeth))
            {
                problems.Add(new(path, Texts.Get("check.measuredCog", place.CogTeeth)));
            }
            if (
                place.Distance == BenchDistance.Gap
                && spec.Rings.All(ring => ring.Teeth != place.RingTeeth)
            )
            {
                problems.Add(new(path, Texts.Get("check.measuredRing", place.RingTeeth)));
            }
            if (
                place.Distance == BenchDistance.PivotToAxleAfterScrew
                && !(Math.Abs(place.Turns) is > 0 and <= MostScrewTurns)
            )
            {
                problems.Add(
                    new(path, Texts.Get("check.measuredTurns", place.Turns, MostScrewTurns))
                );
            }
        }
    }
}
