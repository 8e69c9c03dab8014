using Cogwright.Drivetrain.Bench;

namespace Cogwright.Web.Measuring;

/// <summary>A reading that is asked about before it is kept. Immutable.</summary>
/// <param name="Place">What it was read for.</param>
/// <param name="ReadMm">What was read (mm).</param>
/// <param name="ExpectedMm">What the spec lets expect (mm), or null when nothing can be said.</param>
/// <param name="AsInchesMm">The reading taken as inches (mm), when that would fit; or null.</param>
public sealed record ReadingDoubt(
    BenchPlace Place,
    double ReadMm,
    double? ExpectedMm,
    double? AsInchesMm
)
{
    private const double MostMm = 5000;
    private const double MostGapMm = 40;

    // A gap set with the eye alone is read above this; below it a figure is rather one of a caliper that is left in inches.
    private const double LeastGapMm = 1.6;
    private const double LeastRoomMm = 12;
    private const double Room = 0.35;
    private const double InchRoom = 0.15;

    /// <summary>Whether it cannot be kept at all: no distance is zero, negative or longer than a bike.</summary>
    public bool IsImpossible => !(ReadMm is > 0 and <= MostMm);

    /// <summary>The doubt about a reading, or null when it is what could be expected.</summary>
    /// <param name="place">What was measured.</param>
    /// <param name="readMm">What was read (mm).</param>
    /// <param name="expectedMm">What the spec lets expect (mm), or null.</param>
    public static ReadingDoubt? About(in BenchPlace place, double readMm, double? expectedMm)
    {
        var inches = readMm * 25.4;
        var isGapInInches =
            place.Distance == BenchDistance.Gap
            && readMm is > 0 and < LeastGapMm
            && inches is > LeastGapMm and <= MostGapMm;
        var isFar =
            place.Distance == BenchDistance.Gap
                ? readMm > MostGapMm || isGapInInches
                : expectedMm is { } expected
                    && Math.Abs(readMm - expected) > Math.Max(LeastRoomMm, Room * expected);
        if (readMm is > 0 and <= MostMm && !isFar)
        {
            return null;
        }
        var fits =
            isGapInInches
            || (
                expectedMm is { } about && Math.Abs(inches - about) <= Math.Max(4, InchRoom * about)
            );
        return new(place, readMm, expectedMm, fits ? inches : null);
    }
}
