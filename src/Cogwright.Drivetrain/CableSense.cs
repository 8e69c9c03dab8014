namespace Cogwright.Drivetrain;

/// <summary>
/// Which way a cable moves the rear derailleur. The one place that knows it: on most, springs pull outboard and the cable
/// inboard; on some it is the other way round (<see cref="RearDerailleur.RestsInboard"/>).
/// </summary>
public static class CableSense
{
    /// <summary>Whether the springs pull inboard, so that a pull of the cable moves the guide pulley outboard.</summary>
    public static bool RestsInboard(DrivetrainSpec spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        return spec.RearDerailleur is { RestsInboard: true };
    }

    /// <summary>Movement of the guide pulley per movement of the cable towards the shifter (outboard positive): 1 or −1.</summary>
    public static int OutboardPerPull(DrivetrainSpec spec) => RestsInboard(spec) ? 1 : -1;

    /// <summary>Index of the cog that is reached with a number of clicks pulled: from the cog at rest on.</summary>
    public static int CogAt(DrivetrainSpec spec, int clicks)
    {
        ArgumentNullException.ThrowIfNull(spec);
        return RestsInboard(spec) ? spec.Cogs.Teeth.Length - 1 - clicks : clicks;
    }
}
