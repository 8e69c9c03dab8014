using System.Collections.Immutable;
using System.Text;
using Cogwright.Files.Documents;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>
/// Reads parts files: YAML or JSON with a list <c>parts</c>, or CSV (RFC 4180) with a header row, separated by commas, semicolons
/// or tabs. Whatever the content, it returns the good parts and tells what is wrong with the others; it throws nothing for bad
/// content. Lengths are mm unless a value names its unit.
/// </summary>
public static class PartsReader
{
    /// <summary>Greatest size of a file that is read (bytes): room for some hundred thousand parts.</summary>
    public const int MostBytes = 64_000_000;

    /// <summary>How many entries are read between two reports of progress.</summary>
    public const int EntriesBetweenReports = 1000;

    private static readonly UTF8Encoding StrictUtf8 = new(false, true);

    /// <summary>Reads parts from a text.</summary>
    /// <param name="text">The content of the file.</param>
    /// <param name="fileName">What the file is called in messages; its ending tells CSV from YAML, the content when it does not.</param>
    public static PartsReading Read(string text, string fileName)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        // Without a report of progress nothing in it waits.
        return ReadTextAsync(text, fileName, problems, null, CancellationToken.None)
            .GetAwaiter()
            .GetResult();
    }

    /// <summary>Reads parts from a stream of UTF-8, or of UTF-16 with its mark; no more than <see cref="MostBytes"/> of it.</summary>
    /// <param name="stream">The content of the file; it stays open.</param>
    /// <param name="fileName">What the file is called in messages; its ending tells CSV from YAML, the content when it does not.</param>
    /// <param name="progress">
    /// Called after every <see cref="EntriesBetweenReports"/> entries with their number so far, and awaited, so that a browser
    /// with its one thread can draw in between; may be null.
    /// </param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <exception cref="IOException">The stream itself cannot be read.</exception>
    /// <exception cref="OperationCanceledException">The reading was cancelled.</exception>
    public static async Task<PartsReading> ReadAsync(
        Stream stream,
        string fileName,
        Func<int, Task>? progress = null,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        using var kept = new MemoryStream();
        var buffer = new byte[64 * 1024];
        while (true)
        {
            var count = await stream.ReadAsync(buffer, cancellation);
            if (count == 0)
            {
                break;
            }
            kept.Write(buffer, 0, count);
            if (kept.Length > MostBytes)
            {
                problems.Error(Place.Start, "", Texts.Get("parts.tooLarge", MostBytes / 1e6));
                return Unread(fileName, problems);
            }
        }
        return Decode(kept.GetBuffer().AsSpan(0, (int)kept.Length), problems) is { } text
            ? await ReadTextAsync(text, fileName, problems, progress, cancellation)
            : Unread(fileName, problems);
    }

    private static string? Decode(ReadOnlySpan<byte> bytes, ProblemList problems)
    {
        if (bytes is [0xFF, 0xFE, ..])
        {
            return Encoding.Unicode.GetString(bytes[2..]);
        }
        if (bytes is [0xFE, 0xFF, ..])
        {
            return Encoding.BigEndianUnicode.GetString(bytes[2..]);
        }
        try
        {
            return StrictUtf8.GetString(bytes);
        }
        catch (DecoderFallbackException e)
        {
            var before = Encoding.UTF8.GetString(bytes[..Math.Clamp(e.Index, 0, bytes.Length)]);
            problems.Error(
                TextIntake.PlaceAt(before, before.Length),
                "",
                Texts.Get("file.notUtf8")
            );
            return null;
        }
    }

    private static async Task<PartsReading> ReadTextAsync(
        string text,
        string fileName,
        ProblemList problems,
        Func<int, Task>? progress,
        CancellationToken cancellation
    )
    {
        if (text.Length > MostBytes)
        {
            problems.Error(Place.Start, "", Texts.Get("parts.tooLarge", MostBytes / 1e6));
            return Unread(fileName, problems);
        }
        text = text.Length > 0 && text[0] == '\uFEFF' ? text[1..] : text;
        var parts = ImmutableArray.CreateBuilder<Part>();
        using var source = Source(text, fileName, problems);
        var reader = new PartEntryReader(problems);
        var entries = 0;
        // What is wrong before the first entry, or where no further one is found, is no entry's.
        var isBroken = problems.AnyError;
        while (true)
        {
            var errors = problems.Errors;
            if (!source.Next())
            {
                isBroken |= source.IsUnusable || problems.Errors > errors;
                break;
            }
            entries++;
            var part =
                source.Cells.Count == 0 && problems.Errors > errors
                    ? null
                    : reader.Read(source.Cells, source.Place);
            // What was wrong with the form of the entry counts as much as what is wrong with its values.
            if (part is not null && problems.Errors == errors)
            {
                parts.Add(part);
            }
            if (entries % EntriesBetweenReports == 0)
            {
                cancellation.ThrowIfCancellationRequested();
                if (progress is not null)
                {
                    await progress(entries);
                }
            }
        }
        cancellation.ThrowIfCancellationRequested();
        if (progress is not null)
        {
            await progress(entries);
        }
        return new(fileName, source.IsUnusable ? [] : parts.ToImmutable(), problems.All(), entries)
        {
            IsBroken = isBroken,
            Columns = source.Columns?.ToImmutableHashSet(StringComparer.Ordinal),
        };
    }

    private static PartsReading Unread(string fileName, ProblemList problems) =>
        new(fileName, [], problems.All(), 0) { IsBroken = true };

    private static IPartSource Source(string text, string fileName, ProblemList problems)
    {
        var ending = fileName[(fileName.LastIndexOf('.') + 1)..].ToLowerInvariant();
        var isYaml = ending switch
        {
            "yaml" or "yml" or "json" => true,
            "csv" or "tsv" or "tab" => false,
            _ => LooksLikeYaml(text),
        };
        return isYaml ? new YamlParts(text, problems) : new CsvParts(text, problems);
    }

    private static bool LooksLikeYaml(string text)
    {
        var start = text.AsSpan().TrimStart();
        return start.StartsWith("format:", StringComparison.Ordinal)
            || start.StartsWith("parts:", StringComparison.Ordinal)
            || start.StartsWith("#", StringComparison.Ordinal)
            || start.StartsWith("{", StringComparison.Ordinal);
    }
}
