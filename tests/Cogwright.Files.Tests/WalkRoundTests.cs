using Cogwright.Fastening;
using Cogwright.Setup;

namespace Cogwright.Files.Tests;

/// <summary>The torque walk-rounds of the demo workshop: they stand at the end of a set-up, and spoil none of it.</summary>
public sealed class WalkRoundTests
{
    // Common practice: what the stops rest on is tight before they are set; threadlocker that set is not turned again.
    private static readonly string[] LookedAtOnly = ["hangerScrews", "lockring", "pulleys"];

    public static TheoryData<string> WalkRounds => [.. DemoProcedures.WalkRounds];

    [Fact]
    public void WalkRounds_OfCableAndMotor_AreFilesOfTheirOwn() =>
        Assert.Equal(4, DemoProcedures.WalkRounds.Count);

    private static readonly string[] PartsLookedAt = ["cassette", "hanger", "rearDerailleur"];

    [Theory]
    [MemberData(nameof(WalkRounds))]
    public void WalkRound_Read_TurnsNothingThatTheStopsRestOn(string name)
    {
        var steps = DemoProcedures.Of(name).Steps;

        Assert.DoesNotContain(steps, step => step.Makes.Contains("wheel-out"));
        Assert.Empty(LookedAtOnly.Intersect(steps.Select(step => step.Torque?.Fastener)));
    }

    [Theory]
    [MemberData(nameof(WalkRounds))]
    public void WalkRound_Read_FollowsTheBike(string name)
    {
        var turned = DemoProcedures
            .Of(name)
            .Steps.Select(step => step.Torque?.Fastener)
            .OfType<string>()
            .ToList();

        Assert.Equal(WalkRound.Order.Where(turned.Contains), turned);
    }

    [Theory]
    [MemberData(nameof(WalkRounds))]
    public void WalkRound_Read_EndsWithTheStopProven_BehindTheLastTorque(string name)
    {
        var procedure = DemoProcedures.Of(name);

        Assert.DoesNotContain("inboard-stop-proven-by-hand", procedure.StartsWith);
        Assert.Contains("inboard-stop-proven-by-hand", procedure.Steps[^1].Makes);
        Assert.Null(procedure.Steps[^1].Torque);
    }

    /// <summary>What the walk-round turns or looks at is what the bike's own targets ask for, no more and no less.</summary>
    [Theory]
    [InlineData("torque-walk-round-cable-front", "touring-3x9-cable")]
    [InlineData("torque-walk-round-cable-one-ring", "gravel-1x13")]
    [InlineData("torque-walk-round-cable-one-ring", "commuter-1x8-rests-inboard")]
    [InlineData("torque-walk-round-motor-front", "road-2x12-wireless")]
    [InlineData("torque-walk-round-motor-one-ring", "full-suspension-1x12")]
    [InlineData("torque-walk-round-motor-one-ring", "high-pivot-idler-1x12")]
    [InlineData("torque-walk-round-motor-one-ring", "trail-1x12")]
    public void WalkRound_OnItsBike_LeavesNoFastenerOut(string name, string bike)
    {
        var (catalogue, work) = DemoProcedures.Bike(bike);
        var asked = TargetList
            .Make(catalogue, work)
            .Where(target => target.IsTorque && target.Stage == WorkStage.Torque)
            .Select(target => target.Id);
        var done = DemoProcedures
            .Of(name)
            .Steps.Select(step => step.Torque?.Fastener)
            .OfType<string>()
            .Concat(LookedAtOnly)
            .Select(TargetNames.Torque);

        Assert.Equal(asked.Order(StringComparer.Ordinal), done.Order(StringComparer.Ordinal));
        // What is only looked at is looked at: a step of its own asks for it.
        Assert.Contains(
            DemoProcedures.Of(name).Steps,
            step =>
                step is { Torque: null, Check.Quantity: "strokes", Makes.IsEmpty: true }
                && step.DependsOn.Parts.Order(StringComparer.Ordinal).SequenceEqual(PartsLookedAt)
        );
    }
}
