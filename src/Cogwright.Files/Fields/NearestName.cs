namespace Cogwright.Files.Fields;

/// <summary>Finds the known name that was probably meant.</summary>
internal static class NearestName
{
    /// <summary>The known name nearest to what was written, or null when none is near.</summary>
    internal static string? Find(string written, IEnumerable<string> known)
    {
        var lower = written.ToLowerInvariant();
        // A slip touches one letter in three at most; beyond that a guess misleads.
        var most = Math.Max(1, Math.Min(written.Length, 24) / 3);
        return Ordered(lower, known)
            .Where(c => c.Distance <= most)
            .Select(c => c.Name)
            .FirstOrDefault();
    }

    /// <summary>All known names, the nearest first.</summary>
    internal static IEnumerable<string> NearestFirst(string written, IEnumerable<string> known) =>
        Ordered(written.ToLowerInvariant(), known).Select(c => c.Name);

    private static IEnumerable<(string Name, int Distance)> Ordered(
        string lower,
        IEnumerable<string> known
    ) =>
        known
            .Select(name => (name, Distance(lower, name.ToLowerInvariant())))
            .OrderBy(c => c.Item2);

    /// <summary>
    /// Edits between two words: a letter put in, left out, changed, or two neighbours swapped (optimal string
    /// alignment, after Damerau 1964 and Levenshtein 1966).
    /// </summary>
    internal static int Distance(string a, string b)
    {
        if (a.Length > 64)
        {
            a = a[..64];
        }
        var twoBack = new int[b.Length + 1];
        var back = new int[b.Length + 1];
        var row = new int[b.Length + 1];
        for (var j = 0; j <= b.Length; j++)
        {
            back[j] = j;
        }
        for (var i = 1; i <= a.Length; i++)
        {
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var change = a[i - 1] == b[j - 1] ? 0 : 1;
                row[j] = Math.Min(Math.Min(row[j - 1], back[j]) + 1, back[j - 1] + change);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                {
                    row[j] = Math.Min(row[j], twoBack[j - 2] + 1);
                }
            }
            (twoBack, back, row) = (back, row, twoBack);
        }
        return back[b.Length];
    }
}
