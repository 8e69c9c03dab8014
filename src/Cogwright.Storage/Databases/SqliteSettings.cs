using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Cogwright.Storage;

/// <summary>Gives every connection that a context opens the settings of the others, waiting for locks first.</summary>
internal sealed class SqliteSettings(string pragmas) : DbConnectionInterceptor
{
    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
    {
        using var command = Command(connection);
        command.ExecuteNonQuery();
    }

    public override async Task ConnectionOpenedAsync(
        DbConnection connection,
        ConnectionEndEventData eventData,
        CancellationToken cancellationToken = default
    )
    {
        await using var command = Command(connection);
        await command.ExecuteNonQueryAsync(cancellationToken).ConfigureAwait(false);
    }

    private DbCommand Command(DbConnection connection)
    {
        var command = connection.CreateCommand();
#pragma warning disable CA2100 // Made of constants and numbers.
        command.CommandText = pragmas;
#pragma warning restore CA2100
        return command;
    }
}
