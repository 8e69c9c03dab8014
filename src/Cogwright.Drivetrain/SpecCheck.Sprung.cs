using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <content>What cannot be of a sprung mount and a damper.</content>
public static partial class SpecCheck
{
    /// <summary>Strongest spring at a hanger bolt that is not a slip (N·m).</summary>
    private const double MostMountNm = 50;

    private static void CheckSprung(
        DrivetrainSpec spec,
        RearDerailleur derailleur,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        if (derailleur.Cage.Damper is { } damper)
        {
            const string at = "rearDerailleur.cage.damper";
            Range(problems, $"{at}.frictionTorque", damper.FrictionTorqueNm, 0, MostMountNm);
            if (derailleur.Cage.Spring is null)
            {
                problems.Add(new(at, Texts.Get("check.damperNeedsSpring")));
            }
            else if (derailleur.Cage.Spring.DamperTorqueNm > 0)
            {
                problems.Add(new(at, Texts.Get("check.damperTwice")));
            }
        }
        if (derailleur.Sprung is not { } mount)
        {
            return;
        }
        const string path = "rearDerailleur.sprung";
        Angle(problems, $"{path}.rearRest", mount.RearRestRad);
        Angle(problems, $"{path}.forwardLimit", mount.ForwardLimitRad);
        if (!(mount.RearRestRad < mount.ForwardLimitRad))
        {
            problems.Add(new($"{path}.forwardLimit", Texts.Get("check.mountOrder")));
        }
        Range(problems, $"{path}.preload", mount.PreloadNm, 0, MostMountNm);
        // A spring without rate has no anchor to turn; 0.001 N·m/rad is as good as none.
        Range(problems, $"{path}.rate", mount.RateNmPerRad, 0.001, 1000);
        if (mount.ScrewNmPerTurn is { } torque)
        {
            Range(problems, $"{path}.torquePerTurn", torque, 0.001, MostMountNm);
        }
        if (mount.ScrewRadPerTurn is { } turn)
        {
            AngleWithin(problems, $"{path}.anglePerTurn", turn, 360);
            if (turn <= 0)
            {
                problems.Add(new($"{path}.anglePerTurn", Texts.Get("check.mountPerTurn")));
            }
        }
        if (mount is { ScrewNmPerTurn: not null, ScrewRadPerTurn: not null })
        {
            problems.Add(new($"{path}.anglePerTurn", Texts.Get("check.mountTurnTwice")));
        }
        if (derailleur.Cage.Spring is null)
        {
            problems.Add(new("rearDerailleur.cage.spring", Texts.Get("check.mountNeedsSpring")));
        }
        if (spec.Measured is { Readings.IsEmpty: false })
        {
            problems.Add(new(path, Texts.Get("check.mountMeasured")));
        }
    }
}
