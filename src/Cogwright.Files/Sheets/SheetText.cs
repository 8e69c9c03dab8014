using System.Buffers;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>
/// How the text of a field is written into a file, so that reading gives the same text again: bare only where nothing in it can
/// mean anything to YAML, otherwise in double quotes.
/// </summary>
internal static class SheetText
{
    /// <summary>What may stand in a bare text besides letters and digits.</summary>
    private static readonly SearchValues<char> Harmless = SearchValues.Create(
        " .,-–−+_/()°%·×'\"=;"
    );

    /// <summary>Words that YAML takes for nothing, for yes or for no.</summary>
    private static readonly ImmutableHashSet<string> Words = ImmutableHashSet.Create(
        StringComparer.OrdinalIgnoreCase,
        "null",
        "true",
        "false",
        "yes",
        "no",
        "on",
        "off",
        "y",
        "n"
    );

    /// <summary>The text of a field of some shape; of an unknown field without one.</summary>
    internal static string Of(string text, Shape? shape) =>
        shape switch
        {
            // A file says yes and no with a bare word.
            FlagShape or RefusedShape when text is "true" or "false" => text,
            TextShape => Plain(text),
            _ => IsFlow(text) ? text : Plain(text),
        };

    /// <summary>A text that is nothing but text.</summary>
    internal static string Plain(string text) => IsPlain(text) ? text : ValueText.Quoted(text);

    /// <summary>Whether a file can hold it: no line break of any kind, nothing unseen that a reader drops.</summary>
    internal static bool IsWritable(Rune rune) =>
        !Rune.IsControl(rune)
        && rune.Value is not (0xFEFF or 0xFFFE or 0xFFFF)
        && Rune.GetUnicodeCategory(rune)
            is not (
                UnicodeCategory.LineSeparator
                or UnicodeCategory.ParagraphSeparator
                or UnicodeCategory.Surrogate
                or UnicodeCategory.OtherNotAssigned
            );

    /// <summary>A list in brackets as we write one; anything else that only looks like one would spoil the whole file.</summary>
    private static bool IsFlow(string text) =>
        text.StartsWith('[')
        && text.EndsWith(']')
        && DocumentReader.Read(text, new ProblemList("")) is SequenceNode list
        && SheetIntake.Flow(list) == text;

    private static bool IsPlain(string text)
    {
        if (text.Length == 0 || Words.Contains(text) || text.EndsWith(' '))
        {
            return false;
        }
        // A dash, a sign or a point begins a bare text only as part of a number.
        var isNumber =
            text[0] is '-' or '+' or '.' && text.Length > 1 && char.IsAsciiDigit(text[1])
            || text.StartsWith("-.", StringComparison.Ordinal);
        return (isNumber || char.IsLetterOrDigit(text[0]))
            && text.All(c => char.IsLetterOrDigit(c) || Harmless.Contains(c));
    }
}
