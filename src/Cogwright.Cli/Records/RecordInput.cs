using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text.Json;
using Cogwright.Facts.Records;
using Cogwright.Log;
using Cogwright.Paper;
using Cogwright.Setup.Jobs;

namespace Cogwright.Cli.Records;

/// <summary>Reads entries from a file or a folder: a device's file, a server's export, a record.</summary>
internal static class RecordInput
{
    /// <summary>Everything that a file or folder holds.</summary>
    /// <exception cref="BadInputException">It is none of these.</exception>
    internal static FiledEntries Read(string path)
    {
        if (Directory.Exists(path))
        {
            return OfFolder(path);
        }
        var bytes = Bytes(path);
        return LogFiles.Read(IsPdf(bytes) ? Attached(path, bytes) : bytes)
            ?? throw new BadInputException(Texts.Get("record.noEntries", path));
    }

    /// <summary>The bytes of a file.</summary>
    internal static byte[] Bytes(string path)
    {
        using var stream = InputFile.Open(path);
        using var memory = new MemoryStream();
        stream.CopyTo(memory);
        return memory.ToArray();
    }

    /// <summary>Whether bytes are a PDF.</summary>
    internal static bool IsPdf(ReadOnlySpan<byte> bytes) => bytes.StartsWith("%PDF"u8);

    /// <summary>The record that lies in a PDF.</summary>
    internal static byte[] Attached(string path, byte[] pdf) =>
        PdfAttachment.Find(pdf, RecordFile.AttachmentName)
        ?? throw new BadInputException(Texts.Get("record.noAttachment", path));

    /// <summary>The log of the bike that is meant.</summary>
    /// <param name="filed">The entries.</param>
    /// <param name="bike">What the command line says: an id or the beginning of one; null when it says nothing.</param>
    internal static EntryLog LogOf(FiledEntries filed, string? bike)
    {
        var logs = filed
            .Logs.Where(log =>
                bike is null
                    ? log != Facts.ShopLog.Id
                    : log.ToString().StartsWith(bike, StringComparison.OrdinalIgnoreCase)
            )
            .ToList();
        return logs is [var one]
            ? filed.LogOf(one)
            : throw new BadInputException(
                logs.Count == 0
                    ? Texts.Get("record.noBike", bike ?? "")
                    : Texts.Get("record.whichBike", string.Join(", ", logs))
            );
    }

    /// <summary>The job that is meant: the one named, or the last one that is over, or the last one.</summary>
    internal static Job JobOf(EntryLog log, string? job)
    {
        var jobs = JobRecord.JobsIn(log);
        List<Job> meant = job is null
            ? JobRecord.LastIn(log) is { } last
                ? [last]
                : []
            : jobs.Where(each => each.Id.StartsWith(job, StringComparison.OrdinalIgnoreCase))
                .ToList();
        return meant is [var one]
            ? one
            : throw new BadInputException(
                jobs.IsEmpty
                    ? Texts.Get("record.noJobs")
                    : Texts.Get(
                        "record.whichJob",
                        string.Join("; ", jobs.Select(each => $"{each.Id} {each.Title}"))
                    )
            );
    }

    private static FiledEntries OfFolder(string path)
    {
        var files = Directory
            .EnumerateFiles(path, "entries.bin", SearchOption.AllDirectories)
            .Order(StringComparer.Ordinal)
            .ToList();
        if (files.Count == 0)
        {
            throw new BadInputException(Texts.Get("record.noEntries", path));
        }
        var read = files.ConvertAll(Read);
        return new([.. read.SelectMany(each => each.Entries)])
        {
            Unreadable = [.. read.SelectMany(each => each.Unreadable)],
            Statements =
            [
                .. files
                    .Select(file => Path.Combine(Path.GetDirectoryName(file)!, "statements.jsonl"))
                    .Where(File.Exists)
                    .SelectMany(file => Statements(file)),
            ],
            Keys = Keys(Path.Combine(path, "keys.jsonl")),
        };
    }

    private static ImmutableArray<StatedBytes> Statements(string path)
    {
        try
        {
            return LogFiles.ReadStatements(Bytes(path));
        }
        catch (Exception e)
            when (e
                    is JsonException
                        or FormatException
                        or KeyNotFoundException
                        or InvalidOperationException
            )
        {
            throw new BadInputException(Texts.Get("record.badFile", path, e.Message));
        }
    }

    private static ImmutableSortedDictionary<string, ReadOnlyMemory<byte>> Keys(string path)
    {
        var keys = ImmutableSortedDictionary.CreateBuilder<string, ReadOnlyMemory<byte>>(
            StringComparer.Ordinal
        );
        if (!File.Exists(path))
        {
            return keys.ToImmutable();
        }
        try
        {
            foreach (
                var line in File.ReadAllLines(path).Where(line => !string.IsNullOrWhiteSpace(line))
            )
            {
                using var json = JsonDocument.Parse(line);
                keys[json.RootElement.GetProperty("name").GetString()!] = json
                    .RootElement.GetProperty("spkiBase64")
                    .GetBytesFromBase64();
            }
            return keys.ToImmutable();
        }
        catch (Exception e)
            when (e
                    is JsonException
                        or FormatException
                        or KeyNotFoundException
                        or InvalidOperationException
            )
        {
            throw new BadInputException(Texts.Get("record.badFile", path, e.Message));
        }
    }
}

/// <summary>
/// Checks signatures with the keys that lie at hand. A key's name is a digest of the key itself, so that a key under another's
/// name is none.
/// </summary>
/// <param name="keys">SubjectPublicKeyInfo by name.</param>
internal sealed class KeysAtHand(ImmutableSortedDictionary<string, ReadOnlyMemory<byte>> keys)
    : ICountersignatureCheck
{
    /// <inheritdoc/>
    public ValueTask<bool> HoldsAsync(
        string key,
        ReadOnlyMemory<byte> bytes,
        ReadOnlyMemory<byte> signature
    ) => ValueTask.FromResult(Holds(key, bytes.Span, signature.Span));

    /// <summary>Whether a statement is signed with a key that lies at hand under its true name.</summary>
    internal bool Holds(CountersignedHeads stated) =>
        Holds(stated.Statement.Key, stated.Statement.Encoded.Span, stated.Signature.Span);

    private bool Holds(string key, ReadOnlySpan<byte> bytes, ReadOnlySpan<byte> signature)
    {
        if (
            !keys.TryGetValue(key, out var spki)
            || key != "p256:" + Convert.ToHexStringLower(SHA256.HashData(spki.Span))[..32]
        )
        {
            return false;
        }
        try
        {
            using var known = ECDsa.Create();
            known.ImportSubjectPublicKeyInfo(spki.Span, out _);
            return known.VerifyData(bytes, signature, HashAlgorithmName.SHA256);
        }
        catch (CryptographicException)
        {
            return false;
        }
    }
}
