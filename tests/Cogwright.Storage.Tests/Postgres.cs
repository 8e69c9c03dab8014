[assembly: AssemblyFixture(typeof(Cogwright.Storage.Tests.Postgres))]

namespace Cogwright.Storage.Tests;

/// <summary>The server of this test run, with one database that has the tables already, to copy from.</summary>
public sealed class Postgres : IAsyncLifetime
{
    private string template = "";

    public PostgresServer Server { get; } = PostgresServer.Start();

    public async ValueTask InitializeAsync()
    {
        var connection = Server.NewDatabase();
        template = connection.Split("Database=")[1].Split(';')[0];
        await using (
            await ShopStore.OpenAsync(new StoreOptions("/") { ConnectionString = connection })
        ) { }
        // The copies get an epoch of their own.
        await using var source = Npgsql.NpgsqlDataSource.Create(connection + ";Pooling=false");
        await using var command = source.CreateCommand("""DELETE FROM cogwright."Epochs" """);
        await command.ExecuteNonQueryAsync();
    }

    public string NewDatabase() => Server.NewDatabase(template);

    public ValueTask DisposeAsync() => Server.DisposeAsync();
}
