using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace Cogwright.Paper;

/// <summary>
/// PDFsharp draws lots for the document's identifiers and for the tags of font subsets. Here they are replaced, length
/// for length, by marks made from the content, so that the same sheet is the same file, byte for byte.
/// </summary>
internal static partial class ChanceMarks
{
    [GeneratedRegex(@"/([A-Z]{6})\+DejaVu")]
    private static partial Regex SubsetTag { get; }

    [GeneratedRegex("(?<=uuid:)[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")]
    private static partial Regex Uuid { get; }

    [GeneratedRegex(@"(?<=/ID\[<)[0-9A-F]{32}(?=><([0-9A-F]{32})>\])")]
    private static partial Regex FileId { get; }

    /// <summary>The same file with marks made from its content.</summary>
    internal static byte[] Settle(byte[] pdf)
    {
        // Latin-1 keeps every byte as one character and back.
        var text = Encoding.Latin1.GetString(pdf);
        var tags = SubsetTag
            .Matches(text)
            .Select(match => match.Groups[1].Value)
            .Distinct()
            .ToList();
        foreach (var (index, tag) in tags.Index())
        {
            text = text.Replace(
                tag + "+DejaVu",
                $"COGWR{(char)('A' + index)}+DejaVu",
                StringComparison.Ordinal
            );
        }
        text = Uuid.Replace(text, Guid.Empty.ToString());
        if (FileId.Match(text) is { Success: true } id)
        {
            text = text.Replace(id.Value, new string('0', id.Length), StringComparison.Ordinal);
            text = text.Replace(
                id.Groups[1].Value,
                new string('0', id.Length),
                StringComparison.Ordinal
            );
        }
        var hash = SHA256.HashData(Encoding.Latin1.GetBytes(text));
        text = Uuid.Replace(text, new Guid(hash.AsSpan(0, 16)).ToString());
        text = FileId.Replace(text, Convert.ToHexString(hash, 16, 16));
        return Encoding.Latin1.GetBytes(text);
    }
}
