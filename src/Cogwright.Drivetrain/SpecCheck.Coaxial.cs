using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <content>What cannot be of a derailleur on the axle, and of one whose springs pull inboard.</content>
public static partial class SpecCheck
{
    private static void CheckMount(
        DrivetrainSpec spec,
        RearDerailleur derailleur,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        if (derailleur.Coaxial is { } mount)
        {
            CheckCoaxial(spec, derailleur, mount, problems);
        }
        if (derailleur.RestsInboard && spec.Shifting is { PullMm.IsDefaultOrEmpty: true })
        {
            problems.Add(new("rearDerailleur.restsInboard", Texts.Get("check.restsInboardCable")));
        }
    }

    private static void CheckCoaxial(
        DrivetrainSpec spec,
        RearDerailleur derailleur,
        CoaxialMount mount,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        const string path = "rearDerailleur.coaxial";
        if (spec.Hanger is not null)
        {
            problems.Add(new("hanger", Texts.Get("check.coaxialHanger")));
        }
        if (derailleur.Sprung is not null)
        {
            problems.Add(new(path, Texts.Get("check.sprungCoaxial")));
        }
        if (derailleur.BodyAngleScrew is not null)
        {
            problems.Add(new("rearDerailleur.bodyAngleScrew", Texts.Get("check.coaxialScrew")));
        }
        if (derailleur.InboardStopRad is not null)
        {
            problems.Add(new("rearDerailleur.inboardStop", Texts.Get("check.coaxialStopField")));
        }
        if (derailleur.OutboardStopRad is not null)
        {
            problems.Add(new("rearDerailleur.outboardStop", Texts.Get("check.coaxialStopField")));
        }
        for (var i = 0; i < spec.Adjusters.Length; i++)
        {
            if (spec.Adjusters[i].Moves is Moves.RearOutboardStop or Moves.RearInboardStop)
            {
                problems.Add(new($"adjusters[{i}].moves", Texts.Get("check.coaxialStops")));
            }
        }
        if (!spec.Cogs.Teeth.Contains(mount.SetUpCogTeeth))
        {
            problems.Add(
                new($"{path}.setUpCog", Texts.Get("check.coaxialCog", mount.SetUpCogTeeth))
            );
        }
        if (
            mount.SetUpRingTeeth is { } ring
            && spec.Rings.All(candidate => candidate.Teeth != ring)
        )
        {
            problems.Add(new($"{path}.setUpRing", Texts.Get("check.coaxialRing", ring)));
        }
        Angle(problems, $"{path}.cageAtSetUp", mount.CageAtSetUpRad);
        var cage = derailleur.Cage;
        if (
            !(mount.CageAtSetUpRad >= cage.RearStopRad && mount.CageAtSetUpRad <= cage.FrontStopRad)
        )
        {
            problems.Add(
                new(
                    $"{path}.cageAtSetUp",
                    Texts.Get(
                        "check.coaxialMark",
                        mount.CageAtSetUpRad * 180 / Math.PI,
                        cage.RearStopRad * 180 / Math.PI,
                        cage.FrontStopRad * 180 / Math.PI
                    )
                )
            );
        }
        if (mount.BodyRange is { } range)
        {
            Angle(problems, $"{path}.bodyLeast", range.LeastRad);
            Angle(problems, $"{path}.bodyMost", range.MostRad);
            if (!(range.LeastRad < range.MostRad))
            {
                problems.Add(new($"{path}.bodyMost", Texts.Get("check.coaxialRange")));
            }
        }
    }
}
