using Microsoft.EntityFrameworkCore;

namespace Cogwright.Storage;

/// <summary>The tables in PostgreSQL, in a schema of their own.</summary>
/// <param name="options">The connection.</param>
public sealed class PostgresStoreContext(DbContextOptions<PostgresStoreContext> options)
    : StoreContext(options)
{
    /// <summary>The schema.</summary>
    public const string Schema = "cogwright";

    /// <inheritdoc/>
    protected override void OnModelCreating(ModelBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        base.OnModelCreating(builder);
        builder.HasDefaultSchema(Schema);
    }
}
