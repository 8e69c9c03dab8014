using Cogwright.Drivetrain;

namespace Cogwright.Cli;

/// <summary>What <c>--travel</c> says: a position of the rear end in mm, or a sweep over all of them.</summary>
/// <param name="TravelMm">The travel (mm), or null for where gaps are set.</param>
/// <param name="IsSweep">Whether the whole travel is swept.</param>
internal readonly record struct TravelOption(double? TravelMm, bool IsSweep)
{
    private const string SweepWord = "sweep";

    internal static TravelOption Parse(string? text, bool sweepAllowed)
    {
        if (text is null)
        {
            return default;
        }
        if (sweepAllowed && text == SweepWord)
        {
            return new(null, true);
        }
        return NumberOption.TryParse(text, out var travel)
            ? new(travel, false)
            : throw new BadInputException(
                Texts.Get(sweepAllowed ? "option.travelOrSweep" : "option.travel", text)
            );
    }

    /// <summary>Refuses a travel that the rear end does not have.</summary>
    internal void Check(DrivetrainSpec spec)
    {
        if (spec.Frame.Suspension is not { } suspension)
        {
            if (IsSweep || TravelMm is not (null or 0))
            {
                throw new BadInputException(Texts.Get("option.travelRigid"));
            }
        }
        else if (TravelMm is { } travel && !(travel >= 0 && travel <= suspension.TravelMm))
        {
            throw new BadInputException(
                Texts.Get("option.travelRange", travel, suspension.TravelMm)
            );
        }
    }
}
