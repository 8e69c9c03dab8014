using Cogwright.Log;

namespace Cogwright.Storage.Tests;

public sealed class SqliteStatementTests : StatementTests
{
    protected override string? Connection => null;
}

public sealed class PostgresStatementTests(Postgres postgres) : StatementTests
{
    protected override string? Connection => postgres.NewDatabase();
}

public abstract class StatementTests
{
    private static readonly LogId Job = Bench.Job(1);

    protected abstract string? Connection { get; }

    [Fact]
    public async Task Countersign_AsALogGrows_ChainsStatementsThatHold()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var signer = new StandInSigner();
        var bench = new Bench(1, Job);
        await shop.Store.AppendAsync(Job, bench.WriteMany(3));
        await shop.Store.CountersignAsync(Job, signer);
        await shop.Store.AppendAsync(Job, bench.WriteMany(2));

        var second = await shop.Store.CountersignAsync(Job, signer);
        await shop.ReopenAsync();
        var statements = await shop.Store.StatementsAsync(Job);

        Assert.Equal((2, 5), (second.Statement.Serial, second.Statement.Count));
        Assert.Equal([1, 2], statements.Select(each => each.Statement.Serial));
        Assert.Empty(await StatementCheck.AmongAsync(statements, signer));
        Assert.Empty((await shop.Store.CheckAsync(signer)).Findings);
    }

    [Fact]
    public async Task Countersign_ManyAtOnce_GivesEachANumberOfItsOwn()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.AppendAsync(Job, new Bench(1, Job).WriteMany(3));

        await Task.WhenAll(
            Enumerable
                .Range(0, 5)
                .Select(_ => shop.Store.CountersignAsync(Job, new StandInSigner()))
        );

        Assert.Equal(
            [1, 2, 3, 4, 5],
            (await shop.Store.StatementsAsync(Job)).Select(each => each.Statement.Serial)
        );
    }

    [Fact]
    public async Task Countersign_LogWithoutEntries_SaysSo()
    {
        await using var shop = await Shop.OpenAsync(Connection);

        var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
            shop.Store.CountersignAsync(Job, new StandInSigner())
        );

        Assert.Equal(StoreFaultKind.Nothing, fault.Fault.Kind);
    }
}
