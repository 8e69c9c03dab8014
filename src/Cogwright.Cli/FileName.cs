using System.Globalization;
using System.Text;

namespace Cogwright.Cli;

/// <summary>Names of output files, made from what the bike is called.</summary>
internal static class FileName
{
    private const int Longest = 60;

    /// <summary>Letters and digits of the bike's name in small letters, then what the file shows.</summary>
    internal static string Of(string bike, string what)
    {
        var name = new StringBuilder();
        foreach (var rune in bike.Normalize(NormalizationForm.FormC).EnumerateRunes())
        {
            if (Rune.IsLetterOrDigit(rune))
            {
                name.Append(Rune.ToLower(rune, CultureInfo.InvariantCulture));
            }
            else if (name.Length > 0 && name[^1] != '-')
            {
                name.Append('-');
            }
            if (name.Length >= Longest)
            {
                break;
            }
        }
        var text = name.ToString().Trim('-');
        return text.Length == 0 ? what : $"{text}-{what}";
    }
}
