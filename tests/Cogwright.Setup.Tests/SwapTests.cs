using Cogwright.Drivetrain;
using Cogwright.Parts;
using Cogwright.Setup.Swap;

namespace Cogwright.Setup.Tests;

/// <summary>What a replaced part asks for again. The edges are the trade's (common practice).</summary>
public sealed class SwapTests
{
    [Fact]
    public void Of_NothingReplaced_AsksForNothing()
    {
        var review = SwapReview.Of(Side(Bikes.One), Side(Bikes.One));

        Assert.Empty(review.Replaced);
        Assert.Empty(review.Steps);
    }

    /// <summary>Source: hanger aligned or replaced: both stops, gap and index again; the chain length is looked at (common practice).</summary>
    [Theory]
    [InlineData(PartKind.Hanger, WorkStage.Hanger, true)]
    [InlineData(PartKind.Hanger, WorkStage.OutboardStop, true)]
    [InlineData(PartKind.Hanger, WorkStage.InboardStop, true)]
    [InlineData(PartKind.Hanger, WorkStage.Gap, true)]
    [InlineData(PartKind.Hanger, WorkStage.Index, true)]
    [InlineData(PartKind.Hanger, WorkStage.Chain, false)]
    // Rear wheel swapped: stops and index again; the gap is looked at.
    [InlineData(PartKind.RearWheel, WorkStage.WheelSeated, true)]
    [InlineData(PartKind.RearWheel, WorkStage.InboardStop, true)]
    [InlineData(PartKind.RearWheel, WorkStage.Index, true)]
    [InlineData(PartKind.RearWheel, WorkStage.Gap, false)]
    // Cassette of the same pitch: gap, chain length and inboard stop again; the index is looked at.
    [InlineData(PartKind.Cassette, WorkStage.Gap, true)]
    [InlineData(PartKind.Cassette, WorkStage.Chain, true)]
    [InlineData(PartKind.Cassette, WorkStage.InboardStop, true)]
    [InlineData(PartKind.Cassette, WorkStage.Index, false)]
    // Rear derailleur replaced: torque, stops, gap, index and cable again.
    [InlineData(PartKind.RearDerailleur, WorkStage.Mounting, true)]
    [InlineData(PartKind.RearDerailleur, WorkStage.CableOrPairing, true)]
    [InlineData(PartKind.RearDerailleur, WorkStage.InboardStop, true)]
    [InlineData(PartKind.RearDerailleur, WorkStage.Gap, true)]
    // Cage swapped: chain length and gap again.
    [InlineData(PartKind.Cage, WorkStage.Chain, true)]
    [InlineData(PartKind.Cage, WorkStage.Gap, true)]
    // Chain replaced: its length and join again; the index is looked at.
    [InlineData(PartKind.Chain, WorkStage.Chain, true)]
    [InlineData(PartKind.Chain, WorkStage.Index, false)]
    // Ring size changed: chain length again; the gap is looked at.
    [InlineData(PartKind.Rings, WorkStage.Chain, true)]
    [InlineData(PartKind.Rings, WorkStage.Gap, false)]
    // Crank, spacers or bottom bracket changed: the front chainline, and with it the front derailleur.
    [InlineData(PartKind.Crank, WorkStage.Mounting, true)]
    [InlineData(PartKind.BottomBracket, WorkStage.Mounting, true)]
    // Frame changed: everything.
    [InlineData(PartKind.Frame, WorkStage.Hanger, true)]
    [InlineData(PartKind.Frame, WorkStage.InboardStop, true)]
    [InlineData(PartKind.Frame, WorkStage.Chain, true)]
    [InlineData(PartKind.FrontShifter, WorkStage.CableOrPairing, true)]
    // Shifter replaced: cable and index again.
    [InlineData(PartKind.RearShifter, WorkStage.CableOrPairing, true)]
    [InlineData(PartKind.RearShifter, WorkStage.Index, true)]
    public void Of_OnePartReplaced_AsksForWhatTheTradeTeaches(
        PartKind kind,
        WorkStage stage,
        bool mustRedo
    )
    {
        var steps = Replaced(kind).Steps.Where(step => step.Target.Stage == stage).ToList();

        Assert.NotEmpty(steps);
        Assert.All(steps, step => Assert.Equal(mustRedo, step.MustRedo));
        Assert.All(steps, step => Assert.Contains(kind, step.Because));
    }

    [Theory]
    [InlineData(PartKind.Chain)]
    [InlineData(PartKind.RearWheel)]
    [InlineData(PartKind.Rings)]
    public void Of_AnyPartReplaced_EndsWithTorquesAndATestUnderLoad(PartKind kind)
    {
        var stages = Replaced(kind).Steps.Select(step => step.Target.Stage).ToList();

        Assert.Contains(WorkStage.LoadedTest, stages);
        Assert.DoesNotContain(WorkStage.Inspection, stages);
        Assert.Equal(WorkStage.LoadedTest, stages[^1]);
    }

    [Fact]
    public void Of_LargerCassette_TellsTheChainLengthBeforeAndAfter()
    {
        var larger = Bikes.One with
        {
            Cogs = Bikes.One.Cogs with
            {
                Teeth = [.. Bikes.One.Cogs.Teeth[..^1], Bikes.One.Cogs.Teeth[^1] + 4],
            },
        };
        var review = SwapReview.Of(
            Side(Bikes.One, Some(PartKind.Cassette, "small")),
            Side(larger, Some(PartKind.Cassette, "large"))
        );

        var chain = Assert.Single(review.Steps, s => s.Target.Id == TargetNames.ChainPitches);
        Assert.True(chain.WasValue < chain.Target.Value);
    }

    [Fact]
    public void Of_PartThatNoLongerBelongs_SaysSo()
    {
        var wheel = Some(PartKind.RearWheel, "wheel") with
        {
            Values = Tag(PartFields.HubDriver, "spline-a").Values,
        };
        var before = Side(Bikes.One, wheel, Tag(PartFields.HubDriver, "spline-a"));
        var after = Side(Bikes.One, wheel, Tag(PartFields.HubDriver, "spline-b"));

        var worse = Assert.Single(
            SwapReview.Of(before, after).Worse,
            answer => answer.RuleId == "hub-driver"
        );
        Assert.Equal(Compatibility.No, worse.Answer);
        Assert.Contains(
            SwapReview.Of(after, before).Better,
            answer => answer.RuleId == "hub-driver"
        );
    }

    private static SwapReview Replaced(PartKind kind) =>
        SwapReview.Of(Side(Bikes.One, Some(kind, "old")), Side(Bikes.One, Some(kind, "new")));

    private static SwapSide Side(DrivetrainSpec spec, params Part[] parts)
    {
        var build = new Build(parts);
        return new(
            build,
            CompatibilityReport.Of(build, spec),
            Bikes.Catalogue(spec),
            new() { Actuation = Actuation.Cable }
        );
    }

    private static Part Some(PartKind kind, string id) =>
        new()
        {
            Id = id,
            Kind = kind,
            Name = id,
        };

    private static Part Tag(PartField field, string name) =>
        Some(PartKind.Cassette, name).With(field, new PartValue.Tags([name]));
}
