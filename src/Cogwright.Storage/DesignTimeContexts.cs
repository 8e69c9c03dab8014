using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Cogwright.Storage;

/// <summary>For `dotnet ef migrations add` only, which needs no database.</summary>
internal sealed class SqliteDesign : IDesignTimeDbContextFactory<SqliteStoreContext>
{
    public SqliteStoreContext CreateDbContext(string[] args) =>
        new(
            new DbContextOptionsBuilder<SqliteStoreContext>()
                .UseSqlite("Data Source=:memory:")
                .Options
        );
}

/// <summary>For `dotnet ef migrations add` only, which needs no database.</summary>
internal sealed class PostgresDesign : IDesignTimeDbContextFactory<PostgresStoreContext>
{
    public PostgresStoreContext CreateDbContext(string[] args) =>
        new(
            new DbContextOptionsBuilder<PostgresStoreContext>()
                .UseNpgsql(
                    "Host=localhost",
                    npgsql =>
                        npgsql.MigrationsHistoryTable(
                            "__EFMigrationsHistory",
                            PostgresStoreContext.Schema
                        )
                )
                .Options
        );
}
