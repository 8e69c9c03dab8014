using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <summary>The position of the rear end in words: part of the convention of every gap.</summary>
internal static class RearEndWords
{
    internal static string State(DrivetrainSpec spec, GearTable? table)
    {
        if (spec.Frame.Suspension is not { } suspension)
        {
            return Texts.Get("rearEnd.rigid");
        }
        var travel = table?.TravelMm ?? suspension.SetUpTravelMm;
        if (travel == 0)
        {
            return Texts.Get("rearEnd.extended");
        }
        return Texts.Get(
            travel == suspension.SetUpTravelMm ? "rearEnd.sag" : "rearEnd.at",
            travel,
            Texts.Get($"rearEnd.{suspension.TravelMeans}")
        );
    }
}
