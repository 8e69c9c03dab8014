using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using Cogwright.Facts;
using Cogwright.Log;

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
/// <param name="Photos">The photos that were not sent; absent in files made before there were any.</param>
internal sealed record DeviceFile(
    string Format,
    int Version,
    string Device,
    string Made,
    ImmutableArray<DeviceFileLog> Logs,
    ImmutableArray<DeviceFilePhoto> Photos = default
)
{
    internal const string FormatName = "cogwright-device";
    internal const int Latest = 1;

    /// <summary>The photos, none when the file says nothing of them.</summary>
    internal ImmutableArray<DeviceFilePhoto> PhotosIn => Photos.IsDefault ? [] : Photos;

    internal string Write() =>
        JsonSerializer.Serialize(
            this with
            {
                Photos = PhotosIn,
            },
            DeviceFileJson.Default.DeviceFile
        );

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

/// <summary>A photo in a device's file.</summary>
/// <param name="Log">The log that it lies beside.</param>
/// <param name="ContentType">What it is.</param>
/// <param name="Salt">Its salt, base 64.</param>
/// <param name="Data">Its bytes, base 64.</param>
internal sealed record DeviceFilePhoto(string Log, string ContentType, string Salt, string Data)
{
    /// <summary>The row to keep, or null when it cannot be read.</summary>
    internal PhotoRow? Read()
    {
        try
        {
            var salt = Convert.FromBase64String(Salt ?? "");
            return
                Guid.TryParse(Log, out var log)
                && salt.Length == PersonalDatum.SaltBytes
                && LabelEntry.PhotoTypes.Contains(ContentType)
                ? PhotoRow.Of(
                    new LogId(log),
                    new PersonalDatum(salt, Convert.FromBase64String(Data ?? "")),
                    ContentType
                )
                : null;
        }
        catch (FormatException)
        {
            return null;
        }
    }
}

/// <summary>What came of taking in a device's file.</summary>
/// <param name="IsFile">Whether it was one.</param>
/// <param name="Fresh">Entries that were not here.</param>
/// <param name="Known">Entries that were here already.</param>
/// <param name="Unusable">Entries and photos that could not be read, and entries that contradict one that is here.</param>
/// <param name="Photos">Photos that were not here.</param>
internal sealed record DeviceFileReport(
    bool IsFile,
    int Fresh,
    int Known,
    int Unusable,
    int Photos = 0
);

/// <summary>How the file is written; made at build time, so that trimming takes nothing away.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    WriteIndented = true
)]
[JsonSerializable(typeof(DeviceFile))]
internal sealed partial class DeviceFileJson : JsonSerializerContext;
