namespace Cogwright.Log.Tests;

public sealed class PullCursorTests
{
    private static readonly Guid Life = Bench.IdOf(1);

    [Fact]
    public void After_PagesInTurn_MovesToTheEnd()
    {
        var cursor = PullCursor.Start.After(Page(Life, 0, 10)).After(Page(Life, 10, 25));
        Assert.Equal(new PullCursor(Life, 25), cursor);
    }

    [Fact]
    public void After_PageFurtherOn_WaitsForTheOneBetween()
    {
        var cursor = new PullCursor(Life, 10);
        Assert.Equal(cursor, cursor.After(Page(Life, 25, 30)));
    }

    [Fact]
    public void After_PageTwiceOrEmpty_DoesNotGoBack()
    {
        var cursor = new PullCursor(Life, 25);
        Assert.Equal(cursor, cursor.After(Page(Life, 0, 10)));
        Assert.Equal(cursor, cursor.After(Page(Life, 25, 25)));
    }

    [Fact]
    public void After_ServerRestored_StartsAgain()
    {
        var cursor = new PullCursor(Life, 25);
        var page = Page(Bench.IdOf(2), 25, 30);

        // The page begins at 25 of the new life: what lies before it there has not been fetched.
        Assert.Equal(new PullCursor(Bench.IdOf(2), 0), cursor.After(page));
    }

    private static PullPage Page(Guid epoch, long after, long last) =>
        new(epoch, after, last, [], [], HasMore: false);
}
