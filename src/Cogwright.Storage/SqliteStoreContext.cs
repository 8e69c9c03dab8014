using Microsoft.EntityFrameworkCore;

namespace Cogwright.Storage;

/// <summary>The tables in SQLite.</summary>
/// <param name="options">The connection.</param>
public sealed class SqliteStoreContext(DbContextOptions<SqliteStoreContext> options)
    : StoreContext(options)
{
    /// <inheritdoc/>
    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        base.ConfigureConventions(configurationBuilder);
        configurationBuilder.Properties<Guid>().HaveConversion<GuidBytesConverter>();
    }
}
