using System.Text;

namespace Cogwright.Files.Documents;

/// <summary>Quotes what a file says inside a message: short, on one line, without control characters.</summary>
internal static class Quoting
{
    private const int MostLength = 40;

    internal static string Short(string text)
    {
        var quoted = new StringBuilder();
        foreach (var rune in text.EnumerateRunes())
        {
            if (quoted.Length >= MostLength)
            {
                quoted.Append('…');
                break;
            }
            quoted.Append(Rune.IsControl(rune) ? " " : rune.ToString());
        }
        return quoted.ToString();
    }
}
