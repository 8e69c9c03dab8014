using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>What cannot be is refused with its field and a sentence, and never by an exception.</summary>
public class SpecCheckTests
{
    private static readonly Dictionary<string, (string Path, DrivetrainSpec Spec)> Cases = new()
    {
        ["negative chainstay"] = ("frame.chainstay", Stay(-410)),
        ["chainstay of nothing"] = ("frame.chainstay", Stay(0)),
        ["chainstay in metres"] = ("frame.chainstay", Stay(0.41)),
        ["chainstay of a kilometre"] = ("frame.chainstay", Stay(1e6)),
        ["chainstay not a number"] = ("frame.chainstay", Stay(double.NaN)),
        ["chainstay infinite"] = ("frame.chainstay", Stay(double.PositiveInfinity)),
        ["drop beyond the stay"] = (
            "frame.bbDrop",
            Spec with
            {
                Frame = new() { ChainstayMm = 200, BottomBracketDropMm = 250 },
            }
        ),
        ["drop not a number"] = (
            "frame.bbDrop",
            Spec with
            {
                Frame = Spec.Frame with { BottomBracketDropMm = double.NaN },
            }
        ),
        ["negative axle travel"] = (
            "frame.axleTravel",
            Spec with
            {
                Frame = Spec.Frame with { AxleTravelMm = -1 },
            }
        ),
        ["no ring"] = ("rings", Spec with { Rings = [] }),
        ["ten thousand rings"] = (
            "rings",
            Spec with
            {
                Rings = [.. Enumerable.Range(0, 10_000).Select(i => new Ring(5 + i, 45))],
            }
        ),
        ["ring without teeth"] = ("rings[0].teeth", Spec with { Rings = [new(0, 45)] }),
        ["ring of one tooth"] = ("rings[0].teeth", Spec with { Rings = [new(1, 45)] }),
        ["ring of negative teeth"] = ("rings[0].teeth", Spec with { Rings = [new(-50, 45)] }),
        ["ring of a million teeth"] = (
            "rings[0].teeth",
            Spec with
            {
                Rings = [new(1_000_000, 45)],
            }
        ),
        ["ring twice"] = ("rings[1].teeth", Spec with { Rings = [new(50, 45), new(50, 40)] }),
        ["ring in the next room"] = ("rings[0].lateral", Spec with { Rings = [new(50, 4500)] }),
        ["ring with another's tips"] = (
            "rings[0].tipDiameter",
            Spec with
            {
                Rings = [new(50, 45, 150)],
            }
        ),
        ["no cog"] = ("cogs.teeth", Cogs(c => c with { Teeth = [] })),
        ["cogs out of order"] = ("cogs.teeth[2]", Cogs(c => c with { Teeth = [11, 13, 12] })),
        ["cog twice"] = ("cogs.teeth[1]", Cogs(c => c with { Teeth = [11, 11] })),
        ["cog of one tooth"] = ("cogs.teeth[0]", Cogs(c => c with { Teeth = [1, 11] })),
        ["more tips than cogs"] = (
            "cogs.tipDiameters",
            Cogs(c => c with { Teeth = [11], TipDiametersMm = [null, null] })
        ),
        ["tips of another cog"] = (
            "cogs.tipDiameters[0]",
            Cogs(c => c with { TipDiametersMm = [90] })
        ),
        ["no spacing"] = ("cogs.spacing", Cogs(c => c with { SpacingMm = 0 })),
        ["lateral not a number"] = (
            "cogs.smallestLateral",
            Cogs(c => c with { SmallestLateralMm = double.NaN })
        ),
        ["odd chain"] = ("chain.pitches", Spec with { Chain = new() { Pitches = 109 } }),
        ["chain of four pitches"] = ("chain.pitches", Spec with { Chain = new() { Pitches = 4 } }),
        ["chain of a mile"] = ("chain.pitches", Spec with { Chain = new() { Pitches = 100_000 } }),
        ["negative chain"] = ("chain.pitches", Spec with { Chain = new() { Pitches = -110 } }),
        ["half worn away"] = ("chain.elongation", Spec with { Chain = new() { Elongation = 0.5 } }),
        ["wear not a number"] = (
            "chain.elongation",
            Spec with
            {
                Chain = new() { Elongation = double.NaN },
            }
        ),
        ["no hanger"] = ("hanger", Spec with { Hanger = null }),
        ["hanger not a number"] = (
            "hanger.offset[0]",
            Spec with
            {
                Hanger = new(new(double.NaN, -28)),
            }
        ),
        ["no derailleur for two rings"] = ("rearDerailleur", Spec with { RearDerailleur = null }),
        ["body angle beyond half a turn"] = (
            "rearDerailleur.bodyAngle",
            Derailleur(d => d with { BodyAngleRad = 4 })
        ),
        ["pivot not a number"] = (
            "rearDerailleur.upperPivot[1]",
            Derailleur(d => d with { UpperPivotMm = new(0, double.NaN) })
        ),
        ["negative link"] = (
            "rearDerailleur.linkLength",
            Derailleur(d => d with { LinkLengthMm = -57 })
        ),
        ["link angle not a number"] = (
            "rearDerailleur.linkAngle",
            Derailleur(d => d with { LinkAngleRad = double.NaN })
        ),
        ["slant of a right angle"] = (
            "rearDerailleur.slant",
            Derailleur(d => d with { SlantRad = Math.PI / 2 })
        ),
        ["guide nowhere"] = (
            "rearDerailleur.guideLateralAtZero",
            Derailleur(d => d with { GuideLateralAtZeroMm = double.NegativeInfinity })
        ),
        ["index offset of a hand"] = (
            "rearDerailleur.indexOffset",
            Derailleur(d => d with { IndexOffsetMm = 100 })
        ),
        ["negative least gap"] = (
            "rearDerailleur.leastGap",
            Derailleur(d => d with { LeastGapMm = -1 })
        ),
        ["negative least margin"] = (
            "rearDerailleur.leastMargin",
            Derailleur(d => d with { LeastMarginMm = -1 })
        ),
        ["rear stops crossed"] = (
            "rearDerailleur.inboardStop",
            Derailleur(d => d with { InboardStopRad = -0.2, OutboardStopRad = 0.2 })
        ),
        ["outboard stop not a number"] = (
            "rearDerailleur.outboardStop",
            Derailleur(d => d with { OutboardStopRad = double.NaN })
        ),
        ["cage stops crossed"] = (
            "rearDerailleur.cage.frontStop",
            Cage(c => c with { RearStopRad = 1, FrontStopRad = -1 })
        ),
        ["rear stop not a number"] = (
            "rearDerailleur.cage.rearStop",
            Cage(c => c with { RearStopRad = double.NaN })
        ),
        ["pulleys overlap"] = (
            "rearDerailleur.cage.tension.offset",
            Cage(c => c with { Tension = new(new(-4, -40), 12) })
        ),
        ["pulley of one tooth"] = (
            "rearDerailleur.cage.guide.teeth",
            Cage(c => c with { Guide = new(new(-10, 1), 1) })
        ),
        ["spring that pushes"] = (
            "rearDerailleur.cage.spring.torqueAtRearStop",
            Cage(c => c with { Spring = new(-1, 0.3) })
        ),
        ["screw without thread"] = (
            "rearDerailleur.bodyAngleScrew.threadPitch",
            Screw(s => s with { ThreadPitchMm = 0 })
        ),
        ["lever of nothing"] = (
            "rearDerailleur.bodyAngleScrew.leverRadius",
            Screw(s => s with { LeverRadiusMm = 0 })
        ),
        ["negative travel"] = (
            "rearDerailleur.bodyAngleScrew.turnsLeftIn",
            Screw(s => s with { TurnsLeftIn = -2 })
        ),
        ["turn of nothing"] = (
            "rearDerailleur.bodyAngleScrew.leastTurn",
            Screw(s => s with { LeastTurn = 0 })
        ),
        ["a gear the bike has not"] = ("gearsNotUsed", Spec with { GearsNotUsed = [new(39, 11)] }),
        ["ring and cog overlap"] = (
            "frame.chainstay",
            Spec with
            {
                Frame = new() { ChainstayMm = 150, BottomBracketDropMm = 0 },
            }
        ),
    };

    public static TheoryData<string> Names() => [.. Cases.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void Problems_WhatCannotBe_NamesTheFieldAndSaysWhatWasExpected(string name)
    {
        var (path, spec) = Cases[name];
        var problems = SpecCheck.Problems(spec);
        var problem = problems.FirstOrDefault(p => p.Path == path);
        Assert.True(problem is not null, string.Join("; ", problems));
        Assert.True(problem.Message.Length > 20, problem.Message);
        // One slip of the pen does not make a flood.
        Assert.InRange(problems.Length, 1, 3);
    }

    [Fact]
    public void Problems_WorkedExample_AreNone() => Assert.Empty(SpecCheck.Problems(Spec));

    [Fact]
    public void Problems_OddChainWithHalfLink_AreNone() =>
        Assert.Empty(
            SpecCheck.Problems(
                Spec with
                {
                    Chain = new() { Pitches = 109, HalfLink = true },
                }
            )
        );

    [Fact]
    public void Problems_SeveralAtOnce_AreAllNamed()
    {
        var spec = Stay(-1) with
        {
            Rings = [new(0, 45)],
            Chain = new() { Pitches = 109 },
        };
        Assert.Equal(
            ["frame.chainstay", "rings[0].teeth", "chain.pitches"],
            SpecCheck.Problems(spec).Select(p => p.Path).Where(p => p != "frame.bbDrop")
        );
    }

    private static DrivetrainSpec Stay(double mm) =>
        Spec with
        {
            Frame = Spec.Frame with { ChainstayMm = mm },
        };

    private static DrivetrainSpec Cogs(Func<CogSet, CogSet> change) =>
        Spec with
        {
            Cogs = change(Spec.Cogs),
        };

    private static DrivetrainSpec Derailleur(Func<RearDerailleur, RearDerailleur> change) =>
        Spec with
        {
            RearDerailleur = change(Spec.RearDerailleur!),
        };

    private static DrivetrainSpec Cage(Func<PulleyCage, PulleyCage> change) =>
        Derailleur(d => d with { Cage = change(d.Cage) });

    private static DrivetrainSpec Screw(Func<Adjuster, Adjuster> change) =>
        Derailleur(d => d with { BodyAngleScrew = change(d.BodyAngleScrew!) });
}
