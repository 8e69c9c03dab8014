using Cogwright.Drivetrain;
using Cogwright.Fastening;

namespace Cogwright.Setup.Tests;

/// <summary>What each kind of bike asks for, and every number against its source.</summary>
public sealed class ContentTests
{
    private static Target Of(string id, DrivetrainSpec spec, WorkSpec work) =>
        Bikes.Targets(spec, work).Single(t => t.Id == id);

    private static string[] Ids(DrivetrainSpec spec, WorkSpec work) =>
        [.. Bikes.Targets(spec, work).Select(t => t.Id)];

    [Theory]
    [InlineData("frame-cracks")]
    [InlineData("hanger-thread")]
    [InlineData("wheel-spokes")]
    [InlineData("chain-cog-wear")]
    [InlineData("bearing-play")]
    public void Make_StopBox_SaysDoNotGoOn(string id)
    {
        var target = Of(id, Bikes.Double, Bikes.CableDouble);
        Assert.Equal(WorkStage.Inspection, target.Stage);
        Assert.Contains("Do not go on until", target.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Make_Motor_HasNoCableAndCableHasNoPairing()
    {
        var motor = Ids(Bikes.Double, Bikes.MotorDouble);
        Assert.DoesNotContain(
            motor,
            id => id.Contains("cable", StringComparison.OrdinalIgnoreCase)
        );
        Assert.Contains("pairing", motor);
        var cable = Ids(Bikes.Double, Bikes.CableDouble);
        Assert.DoesNotContain("pairing", cable);
        Assert.DoesNotContain("battery-charge", cable);
        Assert.Contains("tighten-rearCable", cable);
    }

    [Fact]
    public void Make_Wired_ConnectsInsteadOfPairing()
    {
        var ids = Ids(Bikes.One, new() { Actuation = Actuation.MotorWired });
        Assert.Contains("wiring", ids);
        Assert.DoesNotContain("pairing", ids);
    }

    [Fact]
    public void Make_MotorDriven_NeverPushesTheMechanismByHand()
    {
        var proven = Of(TargetNames.InboardStopProven, Bikes.Double, Bikes.MotorDouble);
        Assert.Contains("Never push", proven.Note, StringComparison.Ordinal);
        Assert.DoesNotContain("Push", proven.Convention, StringComparison.Ordinal);
        var cable = Of(TargetNames.InboardStopProven, Bikes.Double, Bikes.CableDouble);
        Assert.Contains("Push", cable.Convention, StringComparison.Ordinal);
    }

    [Fact]
    public void Make_OneRing_HasNoFrontDerailleur() =>
        Assert.DoesNotContain(Bikes.Targets(Bikes.One, new()), t => t.Stage == WorkStage.Front);

    [Fact]
    public void Make_ThreeRings_ChecksTheMiddleOne()
    {
        var work = new WorkSpec { FrontDerailleur = true };
        Assert.Contains("front-middle", Ids(Bikes.Triple, work));
        Assert.DoesNotContain("front-middle", Ids(Bikes.Double, work));
    }

    [Fact]
    public void Make_OneGear_HasTensionAndNoDerailleur()
    {
        var targets = Bikes.Targets(Bikes.Single, new() { Actuation = Actuation.None });
        Assert.Contains(targets, t => t.Id == TargetNames.ChainPlay);
        Assert.Contains(targets, t => t.Id == "chainline-offset");
        Assert.DoesNotContain(
            targets,
            t =>
                t.Stage
                    is WorkStage.Hanger
                        or WorkStage.RoughStops
                        or WorkStage.CableOrPairing
                        or WorkStage.OutboardStop
                        or WorkStage.Index
                        or WorkStage.InboardStop
                        or WorkStage.Gap
                        or WorkStage.IndexAgain
                        or WorkStage.Front
        );
    }

    [Fact]
    public void Make_Assisted_TakesTheBatteryOutFirst()
    {
        var first = Bikes.Targets(Bikes.One, new() { Assisted = true })[0];
        Assert.Equal("battery-out", first.Id);
        Assert.StartsWith("WARNING", first.Caution, StringComparison.Ordinal);
        Assert.DoesNotContain("battery-out", Ids(Bikes.One, new()));
    }

    // Common practice: 4 mm up to nine cogs, 2 mm from ten.
    [Theory]
    [InlineData(9, 4.0)]
    [InlineData(10, 2.0)]
    public void HangerStraight_NumberOfCogs_SetsTheTolerance(int cogs, double upperMm)
    {
        var spec = Bikes.Double with
        {
            Cogs = Bikes.Double.Cogs with { Teeth = [.. Bikes.Double.Cogs.Teeth.Take(cogs)] },
        };
        var target = Of(TargetNames.HangerStraight, spec, new());
        Assert.Equal(upperMm, target.Upper);
        Assert.Equal(TargetSource.CommonPractice, target.Source);
        Assert.Contains("Common practice", target.Note, StringComparison.Ordinal);
    }

    // Common practice (model.md §10 names them facts of the trade).
    [Theory]
    [InlineData("front-height", 1.0, 2.0)]
    [InlineData("front-inner-gap", 0.5, 1.0)]
    [InlineData("front-outer-gap", 0.3, 0.7)]
    [InlineData("cable-adjuster", 1.0, 2.0)]
    public void Make_PracticeOfTheTrade_HasItsRange(string id, double lower, double upper)
    {
        var target = Of(id, Bikes.Double, Bikes.CableDouble);
        Assert.Equal(lower, target.Lower!.Value, 1e-12);
        Assert.Equal(upper, target.Upper!.Value, 1e-12);
        Assert.Equal(TargetSource.CommonPractice, target.Source);
    }

    [Fact]
    public void FrontGaps_AreReadInTheExtremeGears()
    {
        Assert.Equal((50, 11), Of("front-outer-gap", Bikes.Double, Bikes.CableDouble).Gear);
        Assert.Equal((34, 34), Of("front-inner-gap", Bikes.Double, Bikes.CableDouble).Gear);
    }

    // Common practice, N·m.
    [Theory]
    [InlineData(Fasteners.RearMount, 8, 10)]
    [InlineData(Fasteners.RearCable, 5, 7)]
    [InlineData(Fasteners.Pulleys, 3, 4)]
    [InlineData(Fasteners.FrontMount, 5, 7)]
    [InlineData(Fasteners.FrontCable, 5, 7)]
    [InlineData(Fasteners.ShifterClamp, 2.5, 5)]
    [InlineData(Fasteners.Lockring, 29, 50)]
    [InlineData(Fasteners.RingBolts, 8, 11)]
    [InlineData(Fasteners.CrankPinch, 12, 15)]
    [InlineData(Fasteners.Pedals, 35, 40)]
    [InlineData(Fasteners.HangerScrews, 1, 2)]
    [InlineData(Fasteners.RearAxle, 9, 15)]
    public void Torque_NotInTheSpec_IsCommonPractice(string fastener, double lower, double upper)
    {
        var target = Of(TargetNames.Torque(fastener), Bikes.Double, Bikes.CableDouble);
        Assert.Equal((lower, upper), (target.Lower, target.Upper));
        Assert.Equal(TargetSource.CommonPractice, target.Source);
        Assert.True(target.IsTorque);
        Assert.Equal("N·m", target.Unit);
        Assert.Contains("Common practice", target.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Torque_InTheSpec_Wins()
    {
        var work = Bikes.CableDouble with
        {
            Torques = [new(Fasteners.Lockring, 38, 42, "lockring tool 3")],
        };
        foreach (var id in new[] { "tighten-lockring", "torque-lockring" })
        {
            var target = Of(id, Bikes.Double, work);
            Assert.Equal((38, 42), (target.Lower, target.Upper));
            Assert.Equal(TargetSource.Spec, target.Source);
            Assert.Equal("lockring tool 3", target.Tool);
        }
    }

    [Fact]
    public void WalkRound_CableDouble_NamesEveryFastenerInTheOrderOfTheBike()
    {
        var walked = Bikes
            .Targets(Bikes.Double, Bikes.CableDouble)
            .Where(t => t.Stage == WorkStage.Torque)
            .Select(t => t.Id)
            .ToList();
        Assert.Equal(WalkRound.Order.Select(TargetNames.Torque), walked);
        Assert.Equal(
            Fasteners.All.Select(TargetNames.Torque).Order(StringComparer.Ordinal),
            walked.Order(StringComparer.Ordinal)
        );
    }

    [Fact]
    public void Torque_AxleInSlots_InventsNoFigure()
    {
        var target = Of("torque-rearAxle", Bikes.Single, new() { Actuation = Actuation.None });
        Assert.Null(target.Lower);
        Assert.Contains("no common figure", target.Note, StringComparison.Ordinal);
        Assert.NotNull(target.Caution);
    }

    [Fact]
    public void Gap_InTheSpec_Wins()
    {
        var target = Of(TargetNames.Gap, Bikes.Double, Bikes.CableDouble);
        Assert.Equal((6.5, 7.0, 7.5), (target.Lower, target.Value, target.Upper));
        Assert.Equal((34, 34), target.Gear);
        Assert.Equal(TargetSource.Spec, target.Source);
    }

    // Common practice: 6 to 8 mm in one kind of road set-up, 4 to 6 up to 34 teeth, 5 to 10 for some wider sets, about 11
    // by hand in one wide family.
    [Theory]
    [InlineData(2, 34, 6, 8)]
    [InlineData(1, 34, 4, 6)]
    [InlineData(1, 40, 5, 10)]
    [InlineData(1, 51, 10, 12)]
    public void Gap_NotInTheSpec_IsCommonPractice(
        int rings,
        int largest,
        double lower,
        double upper
    )
    {
        var spec = Bikes.Double with
        {
            Rings = rings == 2 ? Bikes.Double.Rings : [new(34, 45)],
            Cogs = Bikes.Double.Cogs with
            {
                Teeth = [.. Bikes.Double.Cogs.Teeth.Take(11), largest],
            },
            Chain = new(),
        };
        var target = Of(TargetNames.Gap, spec, new());
        Assert.Equal((lower, upper), (target.Lower, target.Upper));
        Assert.Equal(TargetSource.CommonPractice, target.Source);
        Assert.Contains("Common practice", target.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Gap_Always_CarriesItsConvention()
    {
        var convention = Of(TargetNames.Gap, Bikes.Double, Bikes.CableDouble).Convention;
        Assert.Contains("tip to tooth tip", convention, StringComparison.Ordinal);
        Assert.Contains("ring 34 and cog 34", convention, StringComparison.Ordinal);
        Assert.Contains("rigid rear end", convention, StringComparison.Ordinal);
    }

    [Fact]
    public void Gap_ThatWouldSpoilAnotherGear_SaysWhich()
    {
        // With one 40-tooth ring the example's pulley meets the 11-tooth cog once 40/34 stands at 5 mm.
        var note = Of(TargetNames.Gap, Bikes.One, new()).Note;
        Assert.Contains("40/11", note, StringComparison.Ordinal);
        Assert.DoesNotContain(
            "teeth that meet",
            Of(TargetNames.Gap, Bikes.Double, Bikes.CableDouble).Note,
            StringComparison.Ordinal
        );
    }

    // model.md §9: direct path 106.76790 pitches, recommended 110.
    [Fact]
    public void Chain_WorkedExample_HasItsNumbers()
    {
        var path = Of(TargetNames.DirectPath, Bikes.Double, Bikes.CableDouble);
        Assert.Equal(106.76790, path.Value!.Value, 1e-4);
        Assert.Equal(TargetSource.Spec, path.Source);
        var chain = Of(TargetNames.ChainPitches, Bikes.Double, Bikes.CableDouble);
        Assert.Equal(110, chain.Value);
        Assert.Equal("110 pitches (55 inner + 55 outer)", chain.Note);
    }

    [Theory]
    [InlineData("rearDerailleur.slant", TargetSource.Assumed, TargetSource.Spec)]
    [InlineData("frame.chainstay", TargetSource.Assumed, TargetSource.Assumed)]
    [InlineData("rearDerailleur.bodyAngleScrew.leverRadius", TargetSource.Spec, TargetSource.Spec)]
    public void Chain_RestingOnAssumedValues_SaysSo(
        string assumed,
        TargetSource pitches,
        TargetSource path
    )
    {
        var spec = Bikes.Double with
        {
            Chain = new(),
            Assumptions = [new(assumed, "1", "common practice")],
        };
        Assert.Equal(pitches, Of(TargetNames.ChainPitches, spec, new()).Source);
        Assert.Equal(path, Of(TargetNames.DirectPath, spec, new()).Source);
    }

    [Fact]
    public void GearsNotToUse_OfTheSpec_AreToldToTheRider()
    {
        var spec = Bikes.Double with { GearsNotUsed = [new(34, 11)] };
        var target = Of("gears-not-to-use", spec, Bikes.CableDouble);
        Assert.Contains("34/11", target.Note, StringComparison.Ordinal);
        var ids = Ids(spec, Bikes.CableDouble);
        Assert.DoesNotContain("loose-end", ids);
        Assert.Contains("tight-end", ids);
        Assert.DoesNotContain("gears-not-to-use", Ids(Bikes.Double, Bikes.CableDouble));
    }

    [Fact]
    public void Make_GapInAGearThatIsNotThere_IsRefusedInWords()
    {
        var work = Bikes.CableDouble with { Gap = new(36, 34, 7, 0.5) };
        var problem = Assert.Single(WorkCheck.Problems(Bikes.Catalogue(Bikes.Double), work));
        Assert.Equal("gap", problem.Path);
        Assert.Contains("36/34", problem.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => Bikes.Targets(Bikes.Double, work));
    }

    [Theory]
    [InlineData(double.NaN, 0.5)]
    [InlineData(-1, 0.5)]
    [InlineData(7, 0)]
    [InlineData(7, double.NaN)]
    [InlineData(700, 1)]
    public void WorkCheck_GapThatCannotBe_IsAProblem(double value, double tolerance) =>
        Assert.NotEmpty(
            WorkCheck.Problems(
                Bikes.Catalogue(Bikes.Double),
                Bikes.CableDouble with
                {
                    Gap = new(34, 34, value, tolerance),
                }
            )
        );

    [Fact]
    public void WorkCheck_TorquesAndFrontThatCannotBe_AreProblems()
    {
        var catalogue = Bikes.Catalogue(Bikes.One);
        string[] Paths(WorkSpec work) =>
            [.. WorkCheck.Problems(catalogue, work).Select(p => p.Path)];
        Assert.Equal(
            ["torques.pedals"],
            Paths(new() { Torques = [new(Fasteners.Pedals, 40, 35)] })
        );
        Assert.Equal(
            ["torques.pedals"],
            Paths(
                new() { Torques = [new(Fasteners.Pedals, 35, 40), new(Fasteners.Pedals, 30, 40)] }
            )
        );
        Assert.Equal(["frontDerailleur"], Paths(new() { FrontDerailleur = true }));
    }
}
