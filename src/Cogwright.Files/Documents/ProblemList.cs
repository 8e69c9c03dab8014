using System.Collections.Immutable;

namespace Cogwright.Files.Documents;

/// <summary>Collects the problems of one file while it is read.</summary>
internal sealed class ProblemList(string fileName)
{
    /// <summary>Most problems that are told; a person mends these first.</summary>
    internal const int Most = 50;

    private readonly List<FileProblem> problems = [];

    internal bool AnyError => Errors > 0;

    internal void Error(Place place, string field, string message)
    {
        Errors++;
        problems.Add(new(fileName, place.Line, place.Column, field, message, true));
    }

    internal void Remark(Place place, string field, string message) =>
        problems.Add(new(fileName, place.Line, place.Column, field, message, false));

    /// <summary>How many errors there are so far.</summary>
    internal int Errors { get; private set; }

    /// <summary>All problems in the order of the file.</summary>
    internal ImmutableArray<FileProblem> All() =>
        [.. problems.OrderBy(p => p.Line).ThenBy(p => p.Column)];

    /// <summary>The problems in the order of the file, at most <see cref="Most"/>, then one that counts the rest.</summary>
    internal ImmutableArray<FileProblem> Sorted()
    {
        var sorted = problems.OrderBy(p => p.Line).ThenBy(p => p.Column).ToList();
        if (sorted.Count <= Most)
        {
            return [.. sorted];
        }
        // Errors are never pushed out of the list by remarks.
        var told = sorted
            .OrderBy(p => !p.IsError)
            .Take(Most)
            .OrderBy(p => p.Line)
            .ThenBy(p => p.Column)
            .ToList();
        var last = told[^1];
        return
        [
            .. told,
            last with
            {
                Field = "",
                Message = Texts.Get("problem.more", sorted.Count - Most),
                IsError = sorted.Exists(p => p.IsError),
            },
        ];
    }
}
