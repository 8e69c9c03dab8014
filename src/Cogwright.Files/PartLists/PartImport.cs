using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>One value that an import changes. Immutable.</summary>
/// <param name="Field">Its name in a parts file, such as <c>stackWidth</c> or <c>spec.rearDerailleur.slant</c>.</param>
/// <param name="Old">What the library holds, as text; empty when nothing.</param>
/// <param name="New">What the file says, as text; empty when nothing.</param>
public sealed record ChangedField(string Field, string Old, string New);

/// <summary>A part of the library that an import changes. Immutable.</summary>
/// <param name="Old">As the library holds it.</param>
/// <param name="New">As the file has it.</param>
/// <param name="Fields">What differs, in the order of a parts file.</param>
public sealed record ChangedPart(Part Old, Part New, ImmutableArray<ChangedField> Fields);

/// <summary>What importing a parts file would do to a library, for people to see before it is done. Immutable.</summary>
/// <param name="Library">The library as it would be.</param>
/// <param name="Added">Parts that the library does not have.</param>
/// <param name="Changed">Parts that the library has otherwise.</param>
/// <param name="Same">Parts that it has just so.</param>
/// <param name="Problems">What is wrong with the entries that are left out, and remarks.</param>
public sealed record PartImport(
    PartLibrary Library,
    ImmutableArray<Part> Added,
    ImmutableArray<ChangedPart> Changed,
    ImmutableArray<Part> Same,
    ImmutableArray<FileProblem> Problems
)
{
    /// <summary>What importing the parts of a file would do to that library.</summary>
    public static PartImport Preview(PartLibrary library, PartsReading reading)
    {
        ArgumentNullException.ThrowIfNull(library);
        ArgumentNullException.ThrowIfNull(reading);
        var change = library.With(reading.Over(library));
        return new(
            change.Library,
            change.Added,
            [
                .. change.Changed.Select(c => new ChangedPart(
                    c.Old,
                    c.New,
                    Differences(c.Old, c.New)
                )),
            ],
            change.Same,
            reading.Problems
        );
    }

    private static ImmutableArray<ChangedField> Differences(Part old, Part now)
    {
        var fields = ImmutableArray.CreateBuilder<ChangedField>();
        Compare(PartEntryReader.Kind, PartKinds.NameOf(old.Kind), PartKinds.NameOf(now.Kind));
        Compare(PartEntryReader.Name, old.Name, now.Name);
        Compare(PartEntryReader.Maker, old.Maker, now.Maker);
        Compare(PartEntryReader.Source, old.Source, now.Source);
        Compare(PartEntryReader.InStock, Count(old), Count(now));
        foreach (var field in PartFields.All)
        {
            Compare(field.Name, Value(old, field), Value(now, field));
        }
        foreach (
            var path in old.SpecValues.Keys.Union(now.SpecValues.Keys).Order(StringComparer.Ordinal)
        )
        {
            Compare(
                PartEntryReader.SpecPrefix + path,
                old.SpecValues.GetValueOrDefault(path, ""),
                now.SpecValues.GetValueOrDefault(path, "")
            );
        }
        return fields.ToImmutable();

        void Compare(string name, string before, string after)
        {
            if (before != after)
            {
                fields.Add(new(name, before, after));
            }
        }
    }

    private static string Count(Part part) =>
        part.InStock?.ToString(CultureInfo.InvariantCulture) ?? "";

    private static string Value(Part part, PartField field) =>
        part.Values.TryGetValue(field, out var value) ? PartValueText.Of(value) : "";
}
