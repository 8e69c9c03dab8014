using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Cogwright.Setup;
using Cogwright.Setup.Procedures;
using Cogwright.Setup.Procedures.Expressions;

namespace Cogwright.Files.Tests;

/// <summary>What the demo workshop's procedures do for whoever works and rides by them. Common practice throughout.</summary>
public sealed partial class DemoProcedureTests
{
    [Theory]
    [InlineData("chain-replacement")]
    [InlineData("full-suspension-1x12-set-up")]
    public void ShockLetOut_WaitsForItsPressure_WarnsOfThePinch_AndIsRestoredBeforeTheRide(
        string name
    )
    {
        var ids = DemoProcedures.Of(name).Steps.Select(step => step.Id).ToList();
        var lets = DemoProcedures.Step(name, "longest");
        var restores = DemoProcedures.Step(name, "restore");

        Assert.Contains("sag-pressure-recorded", lets.BlockedUntil);
        Assert.Contains(
            lets.Hazards,
            hazard => hazard.Consequence.Contains("pinches", StringComparison.Ordinal)
        );
        Assert.Contains("sag-pressure", restores.DependsOn.Readings);
        Assert.InRange(ids.IndexOf("restore"), ids.IndexOf("longest") + 1, ids.IndexOf("ride") - 1);
        Assert.Contains("rear-end-at-longest", Before(name, "restore"));
        Assert.DoesNotContain("rear-end-at-longest", Before(name, "ride"));
        Assert.Contains("rear-end-free", Before(name, "ride"));
    }

    // The target of the gap holds at sag, with the damper off.
    [Theory]
    [InlineData("chain-replacement")]
    [InlineData("full-suspension-1x12-set-up")]
    public void Gap_OfASuspendedBike_IsReadAtSagWithTheDamperOff_AndTheStrapComesOff(string name)
    {
        Assert.Superset(
            new HashSet<string> { "rear-end-at-sag", "damper-off" },
            Before(name, "gap").ToHashSet()
        );
        Assert.Contains("rear-end-free", Before(name, "damper-on"));
        Assert.Contains("damper-on", Before(name, "ride"));
    }

    [Fact]
    public void NewChain_OnCogsThatMayBeWorn_IsRiddenUnderLoadBehindAWarningAndABrakeCheck()
    {
        const string name = "chain-replacement";
        var ride = DemoProcedures.Step(name, "ride");

        Assert.Equal(DemoProcedures.Of(name).Steps[^1].Id, ride.Id);
        Assert.Contains("test-ride", ride.Acts);
        Assert.Contains("brakes-checked", ride.BlockedUntil);
        Assert.Contains(
            ride.Hazards,
            hazard =>
                hazard.Signal == SignalWord.Warning
                && hazard.Nature.Contains("skips", StringComparison.Ordinal)
        );
    }

    // Common practice: neither of the two guards is left out, whichever bike it is.
    [Theory]
    [InlineData("cable-3x9-set-up", "largest, index, front-inboard, every-gear, loaded, ride")]
    [InlineData(
        "wireless-2x12-installation",
        "largest, offset-final, front-inner, every-gear, loaded, ride"
    )]
    [InlineData("full-suspension-1x12-set-up", "largest, offset-final, every-gear, loaded, ride")]
    [InlineData("chain-replacement", "gap-gear, every-gear, loaded, ride")]
    [InlineData("wheel-swap-cable", "largest, index, every-gear, ride")]
    [InlineData("wheel-swap-motor", "largest, index, every-gear, ride")]
    public void LargestCog_UnderPower_IsDeclaredAndWaitsForStopAndHanger(string name, string ids)
    {
        var powered = DemoProcedures
            .Of(name)
            .Steps.Where(step => step.Acts.Contains("powered-shift-to-largest-cog"))
            .ToList();

        Assert.Equal(ids, string.Join(", ", powered.Select(step => step.Id)));
        Assert.All(
            powered,
            step =>
            {
                Assert.Contains("inboard-stop-proven-by-hand", step.BlockedUntil);
                Assert.Contains("hanger-read", step.BlockedUntil);
                Assert.Contains(
                    step.Hazards,
                    hazard => hazard.Nature.Contains("spokes", StringComparison.Ordinal)
                );
            }
        );
    }

    [Theory]
    [InlineData("cable-3x9-set-up", "push-to-inboard-stop")]
    [InlineData("torque-walk-round-cable-front", "push-to-inboard-stop")]
    [InlineData("torque-walk-round-cable-one-ring", "push-to-inboard-stop")]
    [InlineData("wheel-swap-cable", "push-to-inboard-stop")]
    [InlineData("wireless-2x12-installation", "crank-to-inboard-stop")]
    [InlineData("full-suspension-1x12-set-up", "crank-to-inboard-stop")]
    [InlineData("torque-walk-round-motor-front", "crank-to-inboard-stop")]
    [InlineData("torque-walk-round-motor-one-ring", "crank-to-inboard-stop")]
    [InlineData("wheel-swap-motor", "crank-to-inboard-stop")]
    public void InboardStop_Proven_IsAnActOfItsOwn_WithAHazardForFingers(string name, string act)
    {
        var proving = DemoProcedures
            .Of(name)
            .Steps.Where(step => step.Makes.Contains("inboard-stop-proven-by-hand"))
            .ToList();

        Assert.NotEmpty(proving);
        Assert.All(
            proving,
            step =>
            {
                Assert.Contains(act, step.Acts);
                Assert.Contains("drive-battery-out", step.BlockedUntil);
                Assert.Contains("chain-on", step.BlockedUntil);
                Assert.Contains(
                    step.Hazards,
                    hazard => hazard.Consequence.Contains("fingers", StringComparison.Ordinal)
                );
            }
        );
    }

    // Common practice: what a later step rests on comes first.
    [Theory]
    [InlineData("cable-3x9-set-up", "lockring", "seat")]
    [InlineData("cable-3x9-set-up", "hanger-screws", "hanger")]
    [InlineData("cable-3x9-set-up", "friction", "first-click")]
    [InlineData("cable-3x9-set-up", "load-cable", "anchor-again")]
    [InlineData("cable-3x9-set-up", "anchor-again", "first-click")]
    [InlineData("cable-3x9-set-up", "gap", "prove-again")]
    [InlineData("cable-3x9-set-up", "prove-again", "index")]
    [InlineData("wireless-2x12-installation", "lockring", "seat")]
    [InlineData("wireless-2x12-installation", "hanger-screws", "hanger")]
    [InlineData("wireless-2x12-installation", "prove-again", "offset-final")]
    [InlineData("full-suspension-1x12-set-up", "lockring", "seat")]
    [InlineData("full-suspension-1x12-set-up", "hanger-screws", "hanger")]
    [InlineData("full-suspension-1x12-set-up", "gap", "release")]
    [InlineData("full-suspension-1x12-set-up", "release", "offset-final")]
    [InlineData("full-suspension-1x12-set-up", "release", "every-gear")]
    public void GroundWork_InASetUp_StandsBeforeWhatRestsOnIt(
        string name,
        string first,
        string then
    )
    {
        var ids = DemoProcedures.Of(name).Steps.Select(step => step.Id).ToList();

        Assert.InRange(ids.IndexOf(first), 0, ids.IndexOf(then) - 1);
    }

    // Common practice: final torques before the wheels touch the ground, brakes before the ride; a bolt that moved may have
    // moved the stop.
    [Theory]
    [InlineData("cable-3x9-set-up")]
    [InlineData("wireless-2x12-installation")]
    [InlineData("full-suspension-1x12-set-up")]
    [InlineData("chain-replacement")]
    [InlineData("wheel-swap-cable")]
    [InlineData("wheel-swap-motor")]
    public void BikeOnTheGround_ForItsBrakes_IsTightAndHasItsStopProven(string name)
    {
        var brakes = DemoProcedures.Step(name, "brakes");

        Assert.Contains("torques-done", brakes.BlockedUntil);
        Assert.Contains("bike-held", brakes.Clears);
        Assert.Contains("inboard-stop-proven-by-hand", Before(name, "brakes"));
    }

    [Theory]
    [InlineData("cable-3x9-set-up")]
    [InlineData("wireless-2x12-installation")]
    [InlineData("full-suspension-1x12-set-up")]
    [InlineData("chain-replacement")]
    public void Cut_LeavesRoomForTheQuickLinkThatWasCounted(string name)
    {
        var count = DemoProcedures.Step(name, "count").Check!;
        var cut = DemoProcedures.Step(name, "cut").Check!;

        Assert.Equal("chainPitches", count.Target!.Print());
        Assert.Contains("the quick link among them", count.Convention!, StringComparison.Ordinal);
        Assert.Equal("chainPitches - 1 pitches", cut.Target!.Print());
        Assert.Contains("without the quick link", cut.Convention!, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("cable-3x9-set-up", "touring-3x9-cable")]
    [InlineData("wireless-2x12-installation", "road-2x12-wireless")]
    public void FrontGaps_AreThoseThatTheBikesTargetsAskFor(string name, string bike)
    {
        var (catalogue, work) = DemoProcedures.Bike(bike);
        var quantities = SpecQuantities.Of(catalogue, work);
        var targets = TargetList.Make(catalogue, work);
        var asked = DemoProcedures
            .Of(name)
            .Steps.Select(step => step.Check)
            .OfType<StepCheck>()
            .Where(check => check.Quantity is "front-outer-gap" or "front-inner-gap")
            .ToList();

        Assert.Equal(2, asked.Count);
        Assert.All(
            asked,
            check =>
            {
                var target = targets.Single(target => target.Id == check.Quantity);
                Assert.Equal(
                    (target.Lower, target.Upper),
                    (
                        ExpressionMeaning.Evaluate(check.Least!, quantities).Value?.Number,
                        ExpressionMeaning.Evaluate(check.Most!, quantities).Value?.Number
                    )
                );
            }
        );
    }

    // Common practice: stops and index are redone for another wheel, gap and brakes looked at again.
    [Theory]
    [InlineData("wheel-swap-cable", "barrel-adjuster")]
    [InlineData("wheel-swap-motor", "offset-step")]
    public void AnotherWheel_Fitted_HasStopsIndexGapAndBrakesSetBehindIt(string name, string index)
    {
        var behind = DemoProcedures.Of(name).Steps.SkipWhile(step => step.Id != "axle").ToList();
        var final = behind
            .Where(step => step.State == StepState.Final)
            .SelectMany(step => step.Adjusts)
            .ToList();

        Assert.Equal(
            new[] { "body-angle", "inboard-stop", index, "outboard-stop" }.Order(),
            final.Order()
        );
        Assert.Contains(behind, step => step.Makes.Contains("brakes-checked"));
        Assert.DoesNotContain("bike-held", Before(name, "new-in"));
        Assert.Contains("bike-held", Before(name, "gap-after"));
        Assert.Contains("wheel-out", Before(name, "lockring"));
    }

    public static TheoryData<string, string> OnBikes => ProcedureReaderTests.OnBikes;

    /// <summary>A wrench that cannot be set to the torque cannot keep it.</summary>
    [Theory]
    [MemberData(nameof(OnBikes))]
    public void Torques_OnTheBike_AreWithinTheRangeOfTheWrenchThatIsUsed(string name, string bike)
    {
        var (catalogue, work) = DemoProcedures.Bike(bike);
        var quantities = SpecQuantities.Of(catalogue, work);
        var procedure = DemoProcedures.Of(name);
        var ranges = procedure
            .Tools.Select(tool => (tool.Id, Range: Range().Match(tool.Name)))
            .Where(tool => tool.Range.Success)
            .ToDictionary(
                tool => tool.Id,
                tool => (Least: Number(tool.Range, 1), Most: Number(tool.Range, 2))
            );

        Assert.All(
            procedure.Steps.Where(step => step.Torque is not null),
            step =>
            {
                var wrench = ranges[Assert.Single(step.Uses, ranges.ContainsKey)];
                var least = ExpressionMeaning.Evaluate(step.Torque!.Least!, quantities).Value!;
                var most = ExpressionMeaning.Evaluate(step.Torque!.Most!, quantities).Value!;
                Assert.InRange(least.Value.Number, wrench.Least, wrench.Most);
                Assert.InRange(most.Value.Number, wrench.Least, wrench.Most);
                if (step.Torque.Fastener == "lockring")
                {
                    Assert.Contains("lockring-bit", step.Uses);
                }
            }
        );
    }

    private static double Number(Match range, int group) =>
        double.Parse(range.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"(\d+) to (\d+) N·m")]
    private static partial Regex Range();

    // Common practice: with the derailleur on it the gauge lies; a hanger bent often breaks next to the spokes.
    [Fact]
    public void HangerBent_WaitsForTheDerailleurOff_AndIsAsGraveAsItIs()
    {
        var act = StepActs.Find("bend-hanger")!;

        Assert.Equal(Harm.Serious, act.Worst);
        Assert.Contains("rear-derailleur-off", act.Needs);
        Assert.Contains("rear-derailleur-off", Before("hanger-alignment", "bend"));
    }

    [Theory]
    [InlineData("wireless-2x12-installation")]
    [InlineData("full-suspension-1x12-set-up")]
    public void MotorStops_TurnedIn_AreNoLongerBackedOff_AndTheCranksAreDeclared(string name)
    {
        Assert.Contains("stops-backed-off", Before(name, "prove"));
        Assert.DoesNotContain("stops-backed-off", Before(name, "largest"));
        Assert.Contains("turn-cranks", DemoProcedures.Step(name, "outboard").Acts);
    }

    /// <summary>The conditions that hold when a step is reached.</summary>
    private static ImmutableHashSet<string> Before(string name, string id)
    {
        var procedure = DemoProcedures.Of(name);
        return procedure
            .Steps.TakeWhile(step => step.Id != id)
            .Aggregate(procedure.StartsWith.ToImmutableHashSet(), MechanismConditions.After);
    }
}
