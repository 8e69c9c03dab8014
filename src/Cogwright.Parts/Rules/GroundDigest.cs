using System.Globalization;

namespace Cogwright.Parts.Rules;

/// <summary>A short stable name for what an answer was made from.</summary>
internal static class GroundDigest
{
    /// <summary>
    /// FNV-1a over the characters (64 bits; the constants are the algorithm's own, public domain), as 16 hexadecimal
    /// digits. It guards against mistaking one ground for another, not against somebody who wants to: the log does that.
    /// </summary>
    internal static string Of(IEnumerable<string> ground)
    {
        var hash = 14695981039346656037UL;
        foreach (var character in string.Join('|', ground))
        {
            hash = unchecked((hash ^ character) * 1099511628211UL);
        }
        return hash.ToString("x16", CultureInfo.InvariantCulture);
    }
}
