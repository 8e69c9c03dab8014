namespace Cogwright.Storage;

/// <summary>Where a store lies and how much it takes.</summary>
/// <param name="DataFolder">The folder of the shop's data; made if it is not there. SQLite keeps everything in it.</param>
public sealed record StoreOptions(string DataFolder)
{
    /// <summary>The name of the database file in <see cref="DataFolder"/>.</summary>
    public const string DatabaseFileName = "shop.db";

    /// <summary>A connection string of PostgreSQL; null: SQLite in the data folder.</summary>
    public string? ConnectionString { get; init; }

    /// <summary>Bytes of one photo or other personal datum: a tablet's photo, scaled to the screen, takes 1 MB.</summary>
    public int MostPhotoBytes { get; init; } = 8 * 1024 * 1024;

    /// <summary>Bytes of all personal data of one job: some 100 photos.</summary>
    public long PhotoQuotaBytesPerJob { get; init; } = 128L * 1024 * 1024;

    /// <summary>Bytes of all personal data of the shop.</summary>
    public long PhotoQuotaBytes { get; init; } = 16L * 1024 * 1024 * 1024;

    /// <summary>How long a writer waits for a database that somebody else has locked, s; at least 1.</summary>
    public int LockWaitSeconds { get; init; } = 10;

    /// <summary>The clock. Receipt times and statements show it; nothing is ordered by it.</summary>
    public TimeProvider Clock { get; init; } = TimeProvider.System;

    /// <summary>The database file.</summary>
    internal string DatabasePath => Path.Combine(DataFolder, DatabaseFileName);

    /// <summary>For the tests that show what happens with less than FULL.</summary>
    internal string SqliteSynchronous { get; init; } = "FULL";

    /// <summary>For the tests of a full disk: pages of 4096 bytes; null: as many as the disk holds.</summary>
    internal long? SqliteMostPages { get; init; }

    internal long NowTicks => Clock.GetUtcNow().UtcTicks;
}
