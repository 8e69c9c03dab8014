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

    /// <summary>The conditions that hold when a step is reached.</summary>
    private static ImmutableHashSet<string> Before(string name, string id)
    {
        var procedure = DemoProcedures.Of(name);
        return procedure
            .Steps.TakeWhile(step => step.Id != id)
            .Aggregate(procedure.StartsWith.ToImmutableHashSet(), MechanismConditions.After);
    }
}
