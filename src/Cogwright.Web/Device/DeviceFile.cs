using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Cogwright.Web.Device;

/// <summary>
/// Everything on a device in one file: the bytes of every entry, whether or not this version can read them.
/// docs/how-to/offline.md has the format.
/// </summary>
/// <param name="Format">Always <see cref="FormatName"/>.</param>
/// <param name="Version">1; a later version is refused.</param>
/// <param name="Device">The device that it was made on.</param>
/// <param name="Made">When, as that device believed (ISO 8601, UTC).</param>
/// <param name="Logs">The logs.</param>
internal sealed record DeviceFile(
    string Format,
    int Version,
    string Device,
    string Made,
    ImmutableArray<DeviceFileLog> Logs
)
{
    internal const string FormatName = "cogwright-device";
    internal const int Latest = 1;

    internal string Write() => JsonSerializer.Serialize(this, DeviceFileJson.Default.DeviceFile);

    /// <summary>Reads a file; null when it is none, or a later version's.</summary>
    internal static DeviceFile? Read(string text)
    {
        try
        {
            return
                JsonSerializer.Deserialize(text, DeviceFileJson.Default.DeviceFile)
                    is { Format: FormatName, Version: Latest, Logs.IsDefault: false } file
                ? file
                : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}

/// <summary>One log in a device's file.</summary>
/// <param name="Log">The log.</param>
/// <param name="Entries">The bytes of each entry, base 64.</param>
internal sealed record DeviceFileLog(string Log, ImmutableArray<string> Entries);

/// <summary>What came of taking in a device's file.</summary>
/// <param name="IsFile">Whether it was one.</param>
/// <param name="Fresh">Entries that were not here.</param>
/// <param name="Known">Entries that were here already.</param>
/// <param name="Unusable">Entries that could not be read, or that contradict one that is here.</param>
internal sealed record DeviceFileReport(bool IsFile, int Fresh, int Known, int Unusable);

/// <summary>How the file is written; made at build time, so that trimming takes nothing away.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    WriteIndented = true
)]
[JsonSerializable(typeof(DeviceFile))]
internal sealed partial class DeviceFileJson : JsonSerializerContext;
