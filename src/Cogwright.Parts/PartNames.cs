namespace Cogwright.Parts;

/// <summary>How ids of parts and names of interfaces are written, so that they can be compared as they are.</summary>
public static class PartNames
{
    /// <summary>Longest that the name of an interface may be (characters).</summary>
    public const int LongestTag = 64;

    /// <summary>What stands for the whole library where a part's id would stand, so that no part can be called so.</summary>
    public const string Reserved = "file";

    /// <summary>
    /// Whether it can be the id of a part: lower-case letters, digits, points and hyphens, 1 to <see cref="Part.LongestId"/>;
    /// neither points alone nor <see cref="Reserved"/>, which mean something else in an address.
    /// </summary>
    public static bool IsId(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Length is > 0 and <= Part.LongestId
            && text != Reserved
            && text.AsSpan().ContainsAnyExcept('.')
            && text.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c is '.' or '-');
    }

    /// <summary>Whether it can be the name of an interface: letters, digits, points and hyphens, 1 to <see cref="LongestTag"/>.</summary>
    public static bool IsTag(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Length is > 0 and <= LongestTag
            && text.All(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '-');
    }
}
