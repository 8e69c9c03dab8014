using System.Collections.Immutable;
using System.Text.Json;

namespace Cogwright.Storage;

/// <summary>What a backup holds, beside its data in the file backup.json.</summary>
/// <param name="Format">Always <see cref="FormatName"/>.</param>
/// <param name="Version">The version of this file, from 1.</param>
/// <param name="Database">"sqlite" or "postgresql": a backup is restored into the same kind.</param>
/// <param name="DataFile">The name of the file with the data.</param>
/// <param name="Sha256">Of that file, 64 hexadecimal digits.</param>
/// <param name="Epoch">The life of the store that it was made in.</param>
/// <param name="CreatedTicks">When it was begun: 100 ns since the year 1, UTC.</param>
/// <param name="Counts">How much it holds.</param>
/// <param name="Receipts">The last receipt number of each log.</param>
public sealed record BackupManifest(
    string Format,
    int Version,
    string Database,
    string DataFile,
    string Sha256,
    Guid Epoch,
    long CreatedTicks,
    StoreCounts Counts,
    ImmutableSortedDictionary<Guid, long> Receipts
)
{
    /// <summary>The name of the file.</summary>
    public const string FileName = "backup.json";

    /// <summary>Tells it from other files of that name.</summary>
    public const string FormatName = "cogwright-backup";

    /// <summary>The version that is written here.</summary>
    public const int PresentVersion = 1;

    private static readonly JsonSerializerOptions Json = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        WriteIndented = true,
    };

    internal async Task WriteAsync(string folder, CancellationToken cancellation)
    {
        var path = Path.Combine(folder, FileName);
        await File.WriteAllTextAsync(path, JsonSerializer.Serialize(this, Json), cancellation)
            .ConfigureAwait(false);
    }

    /// <summary>Reads it.</summary>
    /// <exception cref="StoreFaultException">It is not there, or is none of ours.</exception>
    internal static async Task<BackupManifest> ReadAsync(
        string folder,
        CancellationToken cancellation
    )
    {
        var path = Path.Combine(folder, FileName);
        try
        {
            var text = await File.ReadAllTextAsync(path, cancellation).ConfigureAwait(false);
            var read = JsonSerializer.Deserialize<BackupManifest>(text, Json);
            return
                read
                    is {
                        Format: FormatName,
                        Counts: not null,
                        Receipts: not null,
                        Sha256: not null
                    }
                && read.DataFile == Path.GetFileName(read.DataFile)
                ? read.Version == PresentVersion
                    ? read
                    : throw Fault("backup.laterVersion", path, read.Version)
                : throw Fault("backup.notOne", path, "");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or JsonException)
        {
            throw Fault("backup.notOne", path, e.Message, e);
        }
    }

    private static StoreFaultException Fault(
        string key,
        string path,
        object what,
        Exception? inner = null
    ) => StoreFaultException.Of(StoreFaultKind.BadBackup, Texts.Get(key, path, what), inner);
}
