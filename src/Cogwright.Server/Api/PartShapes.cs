using System.Collections.Immutable;
using Cogwright.Files;
using Cogwright.Parts;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>What a search in the library found.</summary>
/// <param name="Revision">The library's revision: it rises with every change.</param>
/// <param name="Count">How many parts the library has.</param>
/// <param name="Found">How many of them the words and the kind fit.</param>
/// <param name="Parts">The first of these, the best first.</param>
/// <param name="Damaged">
/// The ids of parts that cannot be read any more and are left out everywhere, until they are put in again or taken out.
/// </param>
internal sealed record PartsAnswer(
    long Revision,
    int Count,
    int Found,
    ImmutableArray<PartSummary> Parts,
    ImmutableArray<string> Damaged
);

/// <summary>A part in a list.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Kind">Its kind, by the name in files.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Maker">Who makes it; may be empty.</param>
/// <param name="InStock">How many are in stock; null: nobody counts.</param>
/// <param name="IsDemo">Whether it came with the demo workshop and nobody has changed it.</param>
internal sealed record PartSummary(
    string Id,
    string Kind,
    string Name,
    string Maker,
    int? InStock,
    bool IsDemo
)
{
    internal static PartSummary Of(Part part, HeldLibrary held) =>
        new(
            part.Id,
            PartKinds.NameOf(part.Kind),
            part.Name,
            part.Maker,
            part.InStock,
            held.Demo.Contains(part.Id)
        );
}

/// <summary>A part with all that is known of it.</summary>
/// <param name="Revision">The library's revision.</param>
/// <param name="Part">What a list shows of it.</param>
/// <param name="Source">Where its figures come from; may be empty.</param>
/// <param name="Values">Its fields by their names in files, as text; lengths in mm.</param>
/// <param name="Spec">What it gives to a spec beyond its fields: path and value.</param>
/// <param name="File">The part as a parts file in YAML, as it can be put back.</param>
internal sealed record PartAnswer(
    long Revision,
    PartSummary Part,
    string Source,
    IReadOnlyDictionary<string, string> Values,
    IReadOnlyDictionary<string, string> Spec,
    string File
)
{
    internal static PartAnswer Of(Part part, HeldLibrary held) =>
        new(
            held.Revision,
            PartSummary.Of(part, held),
            part.Source,
            new SortedDictionary<string, string>(
                part.Values.ToDictionary(
                    each => each.Key.Name,
                    each => PartValueText.Of(each.Value)
                ),
                StringComparer.Ordinal
            ),
            part.SpecValues,
            PartsWriter.ToYaml([part])
        );
}

/// <summary>What a change of the library did.</summary>
/// <param name="Revision">The library's revision now.</param>
/// <param name="Added">Parts that came.</param>
/// <param name="Changed">Parts that took the place of the one with the same id.</param>
/// <param name="Same">Parts that were there in every word.</param>
/// <param name="Removed">Parts that were taken out.</param>
internal sealed record PartsChangeAnswer(
    long Revision,
    long Added,
    long Changed,
    long Same,
    long Removed
)
{
    internal static PartsChangeAnswer Of(PartsChange change) =>
        new(change.Revision, change.Added, change.Changed, change.Same, change.Removed);
}

/// <summary>Something wrong at a place of a file, or a remark about it.</summary>
/// <param name="Line">Line, from 1.</param>
/// <param name="Column">Column in that line, from 1.</param>
/// <param name="Field">The field; empty when it is about the entry or the file itself.</param>
/// <param name="Text">What is wrong, what was expected, what to do next.</param>
/// <param name="IsError">Whether the entry is left out because of it; otherwise it is a remark.</param>
internal sealed record PlaceAnswer(int Line, int Column, string Field, string Text, bool IsError)
{
    /// <summary>At most so many are told: a file of something else altogether has as many as it has lines.</summary>
    internal const int Most = 5000;

    internal static ImmutableArray<PlaceAnswer> Of(ImmutableArray<FileProblem> problems) =>
        [
            .. problems
                .OrderBy(problem => !problem.IsError)
                .Take(Most)
                .Select(problem => new PlaceAnswer(
                    problem.Line,
                    problem.Column,
                    problem.Field,
                    problem.Message,
                    problem.IsError
                )),
        ];
}

/// <summary>What an import would do; nothing is done.</summary>
/// <param name="Revision">The revision of the library that it was compared with.</param>
/// <param name="Entries">How many entries the file has, good and bad.</param>
/// <param name="Added">Parts that the library does not have.</param>
/// <param name="Changed">Parts that it has otherwise.</param>
/// <param name="Same">The ids of the parts that it has just so.</param>
/// <param name="BadCount">How many entries cannot be used.</param>
/// <param name="Bad">Why, and remarks: the first 5000, errors first.</param>
internal sealed record PreviewAnswer(
    long Revision,
    int Entries,
    ImmutableArray<PartSummary> Added,
    ImmutableArray<ChangedPartAnswer> Changed,
    ImmutableArray<string> Same,
    int BadCount,
    ImmutableArray<PlaceAnswer> Bad
)
{
    internal static PreviewAnswer Of(HeldLibrary held, PartsReading reading)
    {
        var import = PartImport.Preview(held.Library, reading);
        return new(
            held.Revision,
            reading.Entries,
            [.. import.Added.Select(part => PartSummary.Of(part, held))],
            [
                .. import.Changed.Select(each => new ChangedPartAnswer(
                    each.New.Id,
                    each.New.Name,
                    each.Fields
                )),
            ],
            [.. import.Same.Select(part => part.Id)],
            reading.BadEntries,
            PlaceAnswer.Of(reading.Problems)
        );
    }
}

/// <summary>A part that an import would change.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Name">What it would be called.</param>
/// <param name="Fields">What would differ: field, old, new.</param>
internal sealed record ChangedPartAnswer(
    string Id,
    string Name,
    ImmutableArray<ChangedField> Fields
);

/// <summary>How far an import or a search is.</summary>
/// <param name="At">"reading" or "storing".</param>
/// <param name="Done">Entries read, or parts written.</param>
/// <param name="All">How many there are; null: not known yet.</param>
internal sealed record ImportProgress(string At, int Done, int? All = null);

/// <summary>The last line of an import that was made.</summary>
/// <param name="At">"done".</param>
/// <param name="Change">What it did.</param>
/// <param name="BadCount">How many entries were skipped.</param>
/// <param name="Bad">Why, and remarks: the first 5000, errors first.</param>
internal sealed record ImportDone(
    string At,
    PartsChangeAnswer Change,
    int BadCount,
    ImmutableArray<PlaceAnswer> Bad
);

/// <summary>The last line of an import that was not made.</summary>
/// <param name="At">"refused".</param>
/// <param name="Problem">Why, and what to do next.</param>
/// <param name="BadCount">How many entries cannot be used.</param>
/// <param name="Bad">Why: the first 5000, errors first.</param>
internal sealed record ImportRefused(
    string At,
    ProblemLine Problem,
    int BadCount,
    ImmutableArray<PlaceAnswer> Bad
);
