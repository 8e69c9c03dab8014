using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Cogwright.Log;

/// <summary>
/// The words of a text as search keeps and compares them. Both databases get these words and take them as they are, so that the
/// same is found in both, whatever their own rules for languages: letters and digits alone, small, without accents, with the
/// letters that are no letter with an accent written out (ß ss, æ ae, ø o, ł l, đ d, þ th, ı i).
/// </summary>
public static class SearchWords
{
    /// <summary>Longer words are cut: 48 characters tell any word and any serial apart.</summary>
    public const int LongestWord = 48;

    /// <summary>More words of one job are not kept.</summary>
    public const int MostWords = 4000;

    /// <summary>More words of a question are not looked at.</summary>
    public const int MostAsked = 8;

    /// <summary>The words of texts, each once, ascending (ordinal); at most <see cref="MostWords"/>.</summary>
    public static ImmutableArray<string> Of(params IEnumerable<string> texts)
    {
        ArgumentNullException.ThrowIfNull(texts);
        var words = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var word in texts.SelectMany(InOrder))
        {
            if (words.Count == MostWords)
            {
                break;
            }
            words.Add(word);
        }
        return [.. words];
    }

    /// <summary>The words of a question, each once, in its order; at most <see cref="MostAsked"/>.</summary>
    public static ImmutableArray<string> Asked(string question) =>
        [.. InOrder(question).Distinct(StringComparer.Ordinal).Take(MostAsked)];

    private static IEnumerable<string> InOrder(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var word = new StringBuilder();
        foreach (var rune in Decomposed(text).EnumerateRunes())
        {
            if (Rune.IsLetterOrDigit(rune))
            {
                word.Append(Plain(Rune.ToLowerInvariant(rune)));
            }
            // What stands above or below a letter belongs to it and is left out.
            else if (!IsMark(rune) && word.Length > 0)
            {
                yield return Cut(word);
                word.Clear();
            }
        }
        if (word.Length > 0)
        {
            yield return Cut(word);
        }
    }

    private static bool IsMark(Rune rune) =>
        Rune.GetUnicodeCategory(rune)
            is UnicodeCategory.NonSpacingMark
                or UnicodeCategory.EnclosingMark
                or UnicodeCategory.SpacingCombiningMark;

    // Half of a surrogate pair cannot be normalised; it becomes the sign for what cannot be read.
    private static string Decomposed(string text) =>
        Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text)).Normalize(NormalizationForm.FormKD);

    private static string Plain(Rune small) =>
        small.Value switch
        {
            'ß' => "ss",
            'æ' => "ae",
            'œ' => "oe",
            'ø' => "o",
            'ł' => "l",
            'đ' or 'ð' => "d",
            'þ' => "th",
            'ı' => "i",
            'ς' => "σ",
            _ => small.ToString(),
        };

    private static string Cut(StringBuilder word)
    {
        var length = Math.Min(word.Length, LongestWord);
        return word.ToString(
            0,
            length > 0 && char.IsHighSurrogate(word[length - 1]) ? length - 1 : length
        );
    }
}
