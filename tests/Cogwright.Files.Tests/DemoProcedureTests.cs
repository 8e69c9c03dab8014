using System.Collections.Immutable;
using Cogwright.Setup.Procedures;

namespace Cogwright.Files.Tests;

/// <summary>What the demo workshop's procedures do for whoever works and rides by them. Common practice throughout.</summary>
public sealed class DemoProcedureTests
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
    [InlineData("cable-3x9-set-up", "largest, index, front-inboard, every-gear, ride")]
    [InlineData(
        "wireless-2x12-installation",
        "largest, offset-final, front-inner, every-gear, ride"
    )]
    [InlineData("full-suspension-1x12-set-up", "largest, offset-final, every-gear, ride")]
    [InlineData("chain-replacement", "ride")]
    [InlineData("wheel-swap-cable", "largest")]
    [InlineData("wheel-swap-motor", "largest")]
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

    /// <summary>The conditions that hold when a step is reached.</summary>
    private static ImmutableHashSet<string> Before(string name, string id)
    {
        var procedure = DemoProcedures.Of(name);
        return procedure
            .Steps.TakeWhile(step => step.Id != id)
            .Aggregate(procedure.StartsWith.ToImmutableHashSet(), MechanismConditions.After);
    }
}
