using System.Text;

namespace Cogwright.Files.Documents;

/// <summary>
/// The gate before the parser: size, encoding and binary content are judged here, so that nothing large or
/// strange is ever parsed.
/// </summary>
internal static class TextIntake
{
    /// <summary>Greatest size of a file (bytes). A full spec is 3 kB; 1 MB is room for years of readings.</summary>
    internal const int MostBytes = 1_000_000;

    private static readonly UTF8Encoding StrictUtf8 = new(false, true);

    /// <summary>The text of the stream, or null after telling why not. Reads at most one byte beyond the limit.</summary>
    internal static string? Read(Stream stream, ProblemList problems)
    {
        if (stream.CanSeek && stream.Length - stream.Position > MostBytes)
        {
            TooLarge(problems, stream.Length - stream.Position);
            return null;
        }
        using var kept = new MemoryStream();
        var buffer = new byte[16 * 1024];
        while (true)
        {
            var count = stream.Read(buffer, 0, buffer.Length);
            if (count == 0)
            {
                break;
            }
            kept.Write(buffer, 0, count);
            if (kept.Length > MostBytes)
            {
                TooLarge(problems, null);
                return null;
            }
        }
        var bytes = kept.ToArray().AsSpan();
        if (bytes is [0xFF, 0xFE, ..] or [0xFE, 0xFF, ..])
        {
            problems.Error(Place.Start, "", Texts.Get("file.utf16"));
            return null;
        }
        try
        {
            return Check(StrictUtf8.GetString(bytes), problems);
        }
        catch (DecoderFallbackException e)
        {
            var before = Encoding.UTF8.GetString(bytes[..Math.Clamp(e.Index, 0, bytes.Length)]);
            problems.Error(PlaceAt(before, before.Length), "", Texts.Get("file.notUtf8"));
            return null;
        }
    }

    /// <summary>The text without its byte-order mark, or null after telling why it cannot be a spec.</summary>
    internal static string? Check(string text, ProblemList problems)
    {
        if (text.Length > MostBytes)
        {
            TooLarge(problems, text.Length);
            return null;
        }
        text = text.Length > 0 && text[0] == '\uFEFF' ? text[1..] : text;
        if (FindBinary(text) is { } at)
        {
            problems.Error(PlaceAt(text, at), "", Texts.Get("file.binary", (int)text[at]));
            return null;
        }
        return text;
    }

    /// <summary>Where a character stands that does not belong in a text, or null.</summary>
    internal static int? FindBinary(string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            var isPair =
                char.IsHighSurrogate(c) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1]);
            if (isPair)
            {
                i++;
            }
            else if (
                (char.IsControl(c) && c is not ('\t' or '\n' or '\r' or '\u0085'))
                || char.IsSurrogate(c)
                || c is '\uFFFE' or '\uFFFF'
            )
            {
                return i;
            }
        }
        return null;
    }

    private static void TooLarge(ProblemList problems, long? size) =>
        problems.Error(
            Place.Start,
            "",
            size is { } known
                ? Texts.Get("file.tooLarge", known / 1e6, MostBytes / 1e6)
                : Texts.Get("file.tooLargeUnknown", MostBytes / 1e6)
        );

    internal static Place PlaceAt(string text, int index)
    {
        var line = 1;
        var lineStart = 0;
        for (var i = 0; i < index; i++)
        {
            if (text[i] == '\n')
            {
                line++;
                lineStart = i + 1;
            }
        }
        return new(line, index - lineStart + 1);
    }
}
