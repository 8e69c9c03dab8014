using Microsoft.Data.Sqlite;

namespace Cogwright.Faults;

/// <summary>A program that has the database file open and does not let go.</summary>
internal static class LockedDatabase
{
    /// <summary>Locks, says "ready", and lets go at a line on the input.</summary>
    internal static void HoldUntilTold(string path)
    {
        using var connection = new SqliteConnection($"Data Source={path};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "BEGIN EXCLUSIVE";
        command.ExecuteNonQuery();
        Console.WriteLine("ready");
        Console.ReadLine();
    }
}
