using System.Data.Common;

namespace Cogwright.Storage;

/// <summary>The commands of one connection, each compiled once. For one user at a time.</summary>
internal sealed class CommandSet(ShopDatabase database, DbConnection connection) : IDisposable
{
    private readonly Dictionary<string, DbCommand> commands = [];

    /// <summary>The transaction that commands run in; null: none.</summary>
    internal DbTransaction? Transaction { get; set; }

    /// <summary>Runs a statement.</summary>
    /// <returns>How many rows it changed.</returns>
    internal Task<int> RunAsync(
        string sql,
        params ReadOnlySpan<(string Name, object? Value)> values
    ) => Command(sql, values).ExecuteNonQueryAsync();

    /// <summary>The first column of the first row; null if there is none.</summary>
    internal Task<object?> ScalarAsync(
        string sql,
        params ReadOnlySpan<(string Name, object? Value)> values
    ) => Command(sql, values).ExecuteScalarAsync();

    /// <summary>The rows.</summary>
    internal Task<DbDataReader> ReadAsync(
        string sql,
        params ReadOnlySpan<(string Name, object? Value)> values
    ) => Command(sql, values).ExecuteReaderAsync();

    public void Dispose()
    {
        foreach (var command in commands.Values)
        {
            command.Dispose();
        }
    }

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
            command.Parameters[i].Value = values[i].Value switch
            {
                null => DBNull.Value,
                Guid id => database.Value(id),
                var value => value,
            };
        }
        command.Transaction = Transaction;
        return command;
    }
}
