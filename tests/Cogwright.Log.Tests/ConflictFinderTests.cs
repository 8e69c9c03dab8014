namespace Cogwright.Log.Tests;

public sealed class ConflictFinderTests
{
    private readonly Bench left = new(1, Bench.Job);
    private readonly Bench right = new(2, Bench.Job);

    private Conflict[] Open => [.. new ConflictFinder(left.Log, new BodySubjects()).Open];

    [Fact]
    public void Conflict_SameSubjectUnseen_ShowsBothAndNoWinner()
    {
        var ofLeft = left.Write("barrel", "set");
        var ofRight = right.Write("barrel", "set");
        right.Write("body", "set");
        left.Log.Merge(right.Log.Ordered);

        var conflict = Assert.Single(Open);
        Assert.Equal("barrel", conflict.Subject);
        Assert.Equal([ofLeft, ofRight], conflict.Entries);
    }

    [Fact]
    public void Conflict_OneHasSeenTheOther_IsNone()
    {
        right.Log.Add(left.Write("barrel", "set"));
        left.Log.Add(right.Write("barrel", "set"));

        Assert.Empty(Open);
    }

    [Fact]
    public void Conflict_LaterEntryHasSeenBoth_IsSettled()
    {
        left.Write("barrel", "set");
        left.Log.Add(right.Write("barrel", "set"));
        Assert.Single(Open);

        left.Write("barrel", "set");
        Assert.Empty(Open);
    }

    [Fact]
    public void Conflict_LaterEntryHasSeenOneOnly_StaysOpen()
    {
        left.Write("barrel", "set");
        var later = left.Write("barrel", "set");
        var ofRight = right.Write("barrel", "set");
        left.Log.Add(ofRight);

        Assert.Equal([later, ofRight], Assert.Single(Open).Entries);
    }

    [Fact]
    public void Conflict_AllButOneCorrectedAway_IsSettled()
    {
        left.Write("barrel", "set");
        var ofRight = right.Write("barrel", "set");
        left.Log.Add(ofRight);
        left.Write("meant the other bike", corrects: ofRight.Id);

        Assert.Empty(Open);
    }

    [Fact]
    public void Conflict_CoveringEntryWithdrawn_ComesBack()
    {
        var finder = new ConflictFinder(left.Log, new BodySubjects());
        var ofLeft = left.Write("barrel", "set");
        var ofRight = right.Write("barrel", "set");
        left.Log.Add(ofRight);
        var settled = left.Write("barrel", "set");
        Assert.Empty(finder.Open);

        left.Write("not settled after all", corrects: settled.Id);
        Assert.Equal([ofLeft, ofRight], Assert.Single(finder.Open).Entries);
    }

    [Fact]
    public void Conflict_InAFork_IsFoundWithinOneDevice()
    {
        left.Write();
        var clone = left.Clone(seed: 5);
        var here = left.Write("barrel", "set");
        var there = clone.Write("barrel", "set");
        left.Log.Add(there);

        Assert.Equal(new[] { here, there }.OrderBy(entry => entry.Id), Assert.Single(Open).Entries);
    }
}
