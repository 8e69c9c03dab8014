using System.Data.Common;

namespace Cogwright.Storage;

/// <summary>The commands of one connection, each compiled once. For one user at a time.</summary>
internal sealed class CommandSet(ShopDatabase database, DbConnection connection) : IDisposable
{
    private readonly Dictionary<string, DbCommand> commands = [];
    private DbBatch? later;

    /// <summary>The transaction that commands run in; null: none.</summary>
    internal DbTransaction? Transaction { get; set; }

    /// <summary>Runs a statement.</summary>
    /// <returns>How many rows it changed.</returns>
    internal Task<int> RunAsync(
        string sql,
        params ReadOnlySpan<(string Name, object? Value)> values
    )
    {
        var command = Command(sql, values);
        return later is null or { BatchCommands.Count: 0 }
            ? command.ExecuteNonQueryAsync()
            : AfterLaterAsync(() => command.ExecuteNonQueryAsync());
    }

    /// <summary>
    /// Runs a statement now or together with others, but before anything that is read and before the transaction ends: over a
    /// network each answer that need not be waited for is time won.
    /// </summary>
    internal Task LaterAsync(string sql, params ReadOnlySpan<(string Name, object? Value)> values)
    {
        if (!connection.CanCreateBatch)
        {
            return RunAsync(sql, values);
        }
        later ??= connection.CreateBatch();
        var command = later.CreateBatchCommand();
        command.CommandText = sql;
        foreach (var (name, value) in values)
        {
            var parameter = command.CreateParameter();
            parameter.ParameterName = name;
            parameter.Value = Stored(value);
            command.Parameters.Add(parameter);
        }
        later.BatchCommands.Add(command);
        return Task.CompletedTask;
    }

    /// <summary>Runs what was put off.</summary>
    internal async Task CatchUpAsync()
    {
        if (later is { BatchCommands.Count: > 0 })
        {
            later.Transaction = Transaction;
            await later.ExecuteNonQueryAsync().ConfigureAwait(false);
            later.BatchCommands.Clear();
        }
    }

    /// <summary>The first column of the first row; null if there is none.</summary>
    internal Task<object?> ScalarAsync(
        string sql,
        params ReadOnlySpan<(string Name, object? Value)> values
    )
    {
        var command = Command(sql, values);
        return AfterLaterAsync(() => command.ExecuteScalarAsync());
    }

    /// <summary>The rows.</summary>
    internal Task<DbDataReader> ReadAsync(
        string sql,
        params ReadOnlySpan<(string Name, object? Value)> values
    )
    {
        var command = Command(sql, values);
        return AfterLaterAsync(() => command.ExecuteReaderAsync());
    }

    public void Dispose()
    {
        later?.Dispose();
        foreach (var command in commands.Values)
        {
            command.Dispose();
        }
    }

    private async Task<T> AfterLaterAsync<T>(Func<Task<T>> run)
    {
        await CatchUpAsync().ConfigureAwait(false);
        return await run().ConfigureAwait(false);
    }

    private object Stored(object? value) =>
        value switch
        {
            null => DBNull.Value,
            Guid id => database.Value(id),
            _ => value,
        };

    private DbCommand Command(string sql, ReadOnlySpan<(string Name, object? Value)> values)
    {
        if (!commands.TryGetValue(sql, out var command))
        {
            command = connection.CreateCommand();
#pragma warning disable CA2100 // Every text is a constant of this room; what callers give goes in as parameters.
            command.CommandText = sql;
#pragma warning restore CA2100
            foreach (var (name, _) in values)
            {
                var parameter = command.CreateParameter();
                parameter.ParameterName = name;
                command.Parameters.Add(parameter);
            }
            commands.Add(sql, command);
        }
        for (var i = 0; i < values.Length; i++)
        {
            command.Parameters[i].Value = Stored(values[i].Value);
        }
        command.Transaction = Transaction;
        return command;
    }
}
