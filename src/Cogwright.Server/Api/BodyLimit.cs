using Cogwright.Files;
using Cogwright.Log;
using Cogwright.Storage;
using Microsoft.AspNetCore.Http.Metadata;

namespace Cogwright.Server;

/// <summary>How many bytes the body of a request may have.</summary>
/// <param name="bytes">At most so many.</param>
internal sealed class BodyLimit(long bytes) : IRequestSizeLimitMetadata
{
    /// <summary>Where nothing else is said: a form's worth.</summary>
    internal const long Usual = 16 * 1024;

    /// <summary>A full sending in base 64, with quotes and commas.</summary>
    internal static BodyLimit Entries { get; } =
        new((EntryLimits.BatchBytes * 4L / 3) + (EntryLimits.BatchEntries * 8L) + 1024);

    /// <summary>One part, however much is written about it.</summary>
    internal static BodyLimit Part { get; } = new(128 * 1024);

    /// <summary>A parts file: some hundred thousand parts.</summary>
    internal static BodyLimit PartsFile { get; } = new(PartsReader.MostBytes);

    /// <summary>A spec as a string of JSON, in which a sign can take six.</summary>
    internal static BodyLimit Spec { get; } = new((SpecReader.MostBytes * 2L) + Usual);

    internal static BodyLimit Photo(StoreOptions options) => new(options.MostPhotoBytes);

    public long? MaxRequestBodySize => bytes;
}
