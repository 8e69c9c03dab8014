using Cogwright.Drivetrain;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>Sprung mount and damper: from the values of a file to the model, and back.</summary>
internal static class SprungBinder
{
    private const string Mount = "rearDerailleur.sprung";
    private const string OfCage = "rearDerailleur.cage.damper";

    internal static SprungMount? Sprung(Leaves leaves) =>
        leaves.HasGroup(Mount)
            ? new(
                leaves.Number($"{Mount}.rearRest"),
                leaves.Number($"{Mount}.forwardLimit"),
                leaves.Number($"{Mount}.preload"),
                leaves.Number($"{Mount}.rate")
            )
            {
                ScrewNmPerTurn = leaves.NumberOrNull($"{Mount}.torquePerTurn"),
                ScrewRadPerTurn = leaves.NumberOrNull($"{Mount}.anglePerTurn"),
            }
            : null;

    internal static Damper? Damper(Leaves leaves) =>
        leaves.HasGroup(OfCage)
            ? new(
                leaves.Number($"{OfCage}.frictionTorque"),
                leaves.Text($"{OfCage}.state") != SprungFields.Off
            )
            : null;

    internal static void Set(RearDerailleur derailleur, Action<string, object?> set)
    {
        if (derailleur.Sprung is { } mount)
        {
            set($"{Mount}.rearRest", mount.RearRestRad);
            set($"{Mount}.forwardLimit", mount.ForwardLimitRad);
            set($"{Mount}.preload", mount.PreloadNm);
            set($"{Mount}.rate", mount.RateNmPerRad);
            set($"{Mount}.torquePerTurn", mount.ScrewNmPerTurn);
            set($"{Mount}.anglePerTurn", mount.ScrewRadPerTurn);
        }
        if (derailleur.Cage.Damper is { } damper)
        {
            set($"{OfCage}.frictionTorque", damper.FrictionTorqueNm);
            set($"{OfCage}.state", damper.On ? SprungFields.On : SprungFields.Off);
        }
    }
}
