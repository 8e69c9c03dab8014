using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Tests;

/// <summary>The costliest failure stands in the stop box and where the inboard stop is proven.</summary>
public sealed class SpokeTargetTests
{
    private static DrivetrainSpec Known { get; } =
        Bikes.Double with
        {
            Lateral = new() { Spokes = new() { CageToSpokesMm = 1.2 } },
            RearDerailleur = Bikes.Double.RearDerailleur! with { InboardStopRad = Example.Rad(37) },
        };

    private static Target Of(string id, DrivetrainSpec spec) =>
        Bikes.Targets(spec, Bikes.CableDouble).Single(t => t.Id == id);

    [Fact]
    public void StopBox_NothingKnown_SaysWhatToMeasure()
    {
        var target = Of("spoke-room", Bikes.Double);
        Assert.Equal(WorkStage.Inspection, target.Stage);
        Assert.StartsWith("CANNOT SAY", target.Title, StringComparison.Ordinal);
        Assert.Contains("nearest spoke", target.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void StopBox_MeasuredAndTooNear_SaysSoWithTheFigure()
    {
        var target = Of("spoke-room", Known);
        Assert.StartsWith("TOUCHES", target.Title, StringComparison.Ordinal);
        Assert.Contains("TOO CLOSE", target.Title, StringComparison.Ordinal);
        Assert.Contains("1.2 mm", target.Title, StringComparison.Ordinal);
        Assert.Contains("Do not shift to the largest cog", target.Note, StringComparison.Ordinal);
    }

    /// <summary>A stop that lets the cage into the spokes is the first line of the stop box, whatever the room on the cog.</summary>
    [Fact]
    public void StopBox_StopLetsItIntoTheSpokes_SaysThatFirst()
    {
        var loose = Known with
        {
            Lateral = new() { Spokes = new() { CageToSpokesMm = 3 } },
            RearDerailleur = Known.RearDerailleur! with { InboardStopRad = Example.Rad(42) },
        };
        var first = Bikes.Targets(loose, Bikes.CableDouble)[0];
        Assert.Equal("spoke-room", first.Id);
        Assert.StartsWith(
            "TOUCHES: cage to spokes with the derailleur pushed",
            first.Title,
            StringComparison.Ordinal
        );

        var proven = Of("spoke-clearance", loose);
        Assert.Contains("overlap", proven.Title, StringComparison.Ordinal);
        Assert.StartsWith("TOUCHES", proven.TitleInShort, StringComparison.Ordinal);
        Assert.DoesNotContain("-", proven.TitleInShort!, StringComparison.Ordinal);
    }

    [Fact]
    public void InboardStop_Known_TellsItsReachAndTheRoomThere()
    {
        var target = Of("spoke-clearance", Known);
        Assert.Equal(WorkStage.InboardStop, target.Stage);
        Assert.Contains("overlap at the inboard stop", target.Title, StringComparison.Ordinal);
        Assert.Contains("pushed to its inboard stop", target.Note, StringComparison.Ordinal);
        Assert.Contains("beyond the 34-tooth cog", target.Note, StringComparison.Ordinal);
        Assert.Contains("after a knock of 3 mm", target.Note, StringComparison.Ordinal);
        Assert.Contains("spoke guard", target.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void SingleSpeed_NoDerailleur_HasNoSpokeTargets() =>
        Assert.DoesNotContain(
            Bikes.Targets(Bikes.Single, new() { Actuation = Actuation.None }),
            t => t.Id is "spoke-room" or "spoke-clearance"
        );

    [Fact]
    public void Clearances_FromAssumedFigures_MakeTheTargetAssumed()
    {
        var spec = Known with
        {
            Lateral = new()
            {
                Spokes = new() { CogToSpokesMm = 4 },
                CageInnerFaceMm = 4.5,
            },
            Assumptions = [new("rearDerailleur.slant", "52 °", "common practice")],
        };
        Assert.Equal(TargetSource.Assumed, Of("spoke-room", spec).Source);
        Assert.Contains(
            Bikes.Catalogue(spec).Clearances,
            fact => fact is { Group: ClearanceGroup.OnCog, IsAssumed: true, Mm: not null }
        );
    }
}
