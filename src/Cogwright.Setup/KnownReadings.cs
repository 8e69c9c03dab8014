using System.Collections.Immutable;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>The names that a reading of a bike may have, and the one that was probably meant.</summary>
internal static class KnownReadings
{
    /// <summary>What a list of names says for every clock position of the hanger gauge.</summary>
    private const string AnyClock = ReadingNames.HangerClock + "N";

    /// <summary>Every name, targets first.</summary>
    internal static ImmutableArray<string> Of(
        QuantityCatalogue catalogue,
        ImmutableArray<Target> targets
    )
    {
        var own = targets
            .Where(t => t.Lower is not null || t.Upper is not null)
            .Select(t => t.Id)
            .Distinct();
        if (!catalogue.HasRearDerailleur)
        {
            return [.. own];
        }
        string[] further =
        [
            ReadingNames.IndexUp,
            ReadingNames.IndexDown,
            ReadingNames.OutboardOvershoot,
            ReadingNames.InboardOvershoot,
        ];
        return
        [
            .. own,
            // A derailleur on the axle has no hanger to hold a gauge against.
            .. catalogue.IsOnAxle ? [] : (string[])[AnyClock],
            .. further,
        ];
    }

    /// <summary>The names in one line.</summary>
    internal static string List(ImmutableArray<string> names) =>
        string.Join(
            ", ",
            names.Select(name => name == AnyClock ? Texts.Get("reading.anyClock", name) : name)
        );

    /// <summary>The name nearest to what was written, or null when none is near: a slip touches one letter in three at most.</summary>
    /// <param name="written">What was written.</param>
    /// <param name="names">The names that there are.</param>
    /// <param name="mostEdits">The most letters that may be wrong, where long names are alike without being slips.</param>
    internal static string? Nearest(
        string written,
        ImmutableArray<string> names,
        int mostEdits = int.MaxValue
    )
    {
        var lower = written.ToLowerInvariant();
        var most = Math.Min(mostEdits, Math.Max(1, Math.Min(written.Length, 24) / 3));
        return names
            .Select(name => (name, Edits: Edits(lower, name.ToLowerInvariant())))
            .Where(candidate => candidate.Edits <= most)
            .OrderBy(candidate => candidate.Edits)
            .Select(candidate => candidate.name)
            .FirstOrDefault();
    }

    /// <summary>
    /// Edits between two words: a letter put in, left out, changed, or two neighbours swapped (optimal string alignment,
    /// after Damerau 1964 and Levenshtein 1966).
    /// </summary>
    private static int Edits(string a, string b)
    {
        const int longest = 64;
        if (a.Length > longest)
        {
            a = a[..longest];
        }
        var cells = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++)
        {
            for (var j = 0; j <= b.Length; j++)
            {
                if (i == 0 || j == 0)
                {
                    cells[i, j] = i + j;
                    continue;
                }
                var change = a[i - 1] == b[j - 1] ? 0 : 1;
                var least = Math.Min(
                    Math.Min(cells[i - 1, j], cells[i, j - 1]) + 1,
                    cells[i - 1, j - 1] + change
                );
                cells[i, j] =
                    i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]
                        ? Math.Min(least, cells[i - 2, j - 2] + 1)
                        : least;
            }
        }
        return cells[a.Length, b.Length];
    }
}
