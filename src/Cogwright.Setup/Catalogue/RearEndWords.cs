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
            Means(suspension)
        );
    }

    /// <summary>The same in the fewest words.</summary>
    internal static string InShort(DrivetrainSpec spec, GearTable? table)
    {
        if (spec.Frame.Suspension is not { } suspension)
        {
            return Texts.Get("rearEnd.short.rigid");
        }
        var travel = table?.TravelMm ?? suspension.SetUpTravelMm;
        return travel == 0 ? Texts.Get("rearEnd.short.extended")
            : travel == suspension.SetUpTravelMm ? Texts.Get("rearEnd.short.sag")
            : Texts.Get("rearEnd.short.at", travel, Means(suspension));
    }

    /// <summary>A travel to which the rear end is brought by hand; null for one that hangs.</summary>
    internal static string At(DrivetrainSpec spec, double? travelMm) =>
        spec.Frame.Suspension is not { } suspension ? Texts.Get("rearEnd.rigid")
        : travelMm is not { } travel || travel == 0 ? Texts.Get("rearEnd.hanging")
        : Texts.Get("rearEnd.compressed", travel, Means(suspension));

    /// <summary>What a travel is measured as: at the wheel, or as the shock's stroke.</summary>
    internal static string Means(Suspension suspension) =>
        Texts.Get($"rearEnd.{suspension.TravelMeans}");
}
