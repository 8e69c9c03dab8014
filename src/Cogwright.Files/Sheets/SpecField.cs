using System.Collections.Immutable;
using System.Globalization;

namespace Cogwright.Files;

/// <summary>What is written into a field.</summary>
public enum FieldKind
{
    /// <summary>Text on one line.</summary>
    Text,

    /// <summary>Yes or no.</summary>
    YesNo,

    /// <summary>A whole number.</summary>
    Count,

    /// <summary>One of <see cref="SpecField.Choices"/>.</summary>
    Choice,

    /// <summary>A number with a unit.</summary>
    Quantity,

    /// <summary>A number without a unit.</summary>
    Number,

    /// <summary>Two lengths: forward and up.</summary>
    Offset,

    /// <summary>Teeth of every cog.</summary>
    Teeth,

    /// <summary>Several lengths.</summary>
    Lengths,
}

/// <summary>Whether a field must be filled in.</summary>
public enum FieldNeed
{
    /// <summary>It may be left out.</summary>
    Optional,

    /// <summary>It must be there as soon as its group is.</summary>
    Required,

    /// <summary>It must be there unless a class supplies it.</summary>
    OrClass,

    /// <summary>It must be there unless a part that the spec names supplies it.</summary>
    OrPart,
}

/// <summary>Where the value in force comes from.</summary>
public enum ValueOrigin
{
    /// <summary>There is none.</summary>
    None,

    /// <summary>The spec states it.</summary>
    Spec,

    /// <summary>It was measured on this bike, or found from what was measured.</summary>
    Measured,

    /// <summary>A class stands in for it: <see cref="SpecField.From"/>.</summary>
    Class,

    /// <summary>Common practice stands in for it.</summary>
    CommonPractice,

    /// <summary>A part that the spec names gives it: <see cref="SpecField.From"/>.</summary>
    Part,
}

/// <summary>The least and greatest value that a field may have, in the unit of the field.</summary>
/// <param name="Least">Least.</param>
/// <param name="Most">Greatest.</param>
public readonly record struct FieldRange(double Least, double Most);

/// <summary>One field of a sheet with everything that somebody who fills it in wants to know. Immutable.</summary>
public sealed record SpecField
{
    /// <summary>Its path in this sheet, such as <c>rings[1].teeth</c>.</summary>
    public required string Path { get; init; }

    /// <summary>Its path in the table of fields, such as <c>rings[].teeth</c>.</summary>
    public required string TablePath { get; init; }

    /// <summary>Which entry of its list it belongs to, counted from 0; 0 in no list.</summary>
    public int Entry
    {
        get
        {
            var open = Path.LastIndexOf('[');
            return open < 0
                ? 0
                : int.Parse(
                    Path.AsSpan(open + 1, Path.IndexOf(']', open) - open - 1),
                    CultureInfo.InvariantCulture
                );
        }
    }

    /// <summary>What it is called in the trade.</summary>
    public required string Label { get; init; }

    /// <summary>One sentence about it.</summary>
    public required string About { get; init; }

    /// <summary>What is written into it.</summary>
    public required FieldKind Kind { get; init; }

    /// <summary>The unit of a bare number; empty where there is none.</summary>
    public string Unit { get; init; } = "";

    /// <summary>What can be chosen; empty unless <see cref="Kind"/> is <see cref="FieldKind.Choice"/>.</summary>
    public ImmutableArray<string> Choices { get; init; } = [];

    /// <summary>Whether it must be filled in.</summary>
    public FieldNeed Need { get; init; }

    /// <summary>What it may be, or null when no range is known.</summary>
    public FieldRange? Range { get; init; }

    /// <summary>The text that stands in the sheet, right or wrong; null when none does.</summary>
    public string? Text { get; init; }

    /// <summary>The value in force with its unit, where it says more than <see cref="Text"/>; or null.</summary>
    public string? InForce { get; init; }

    /// <summary>Where the value in force comes from.</summary>
    public ValueOrigin Origin { get; init; }

    /// <summary>The class it comes from, in words; empty unless <see cref="Origin"/> is <see cref="ValueOrigin.Class"/>.</summary>
    public string From { get; init; } = "";

    /// <summary>Whether a problem of the spec is about this field.</summary>
    public bool IsMeant(FileProblem problem)
    {
        ArgumentNullException.ThrowIfNull(problem);
        return problem.Field == Path
            || problem.Field.StartsWith(Path + "[", StringComparison.Ordinal)
            || problem.Field + ".value" == Path;
    }
}

/// <summary>A list of a sheet, such as the rings. Immutable.</summary>
/// <param name="Path">Its path, such as <c>rings</c>.</param>
/// <param name="Label">What it is called.</param>
/// <param name="EntryLabel">What one entry is called.</param>
/// <param name="About">One sentence about it.</param>
/// <param name="Most">Most entries that it may have.</param>
/// <param name="Entries">The fields of each entry.</param>
public sealed record SpecFieldList(
    string Path,
    string Label,
    string EntryLabel,
    string About,
    int Most,
    ImmutableArray<ImmutableArray<SpecField>> Entries
);

/// <summary>Fields that belong together. Immutable.</summary>
/// <param name="Path">The path of the group; empty for what concerns the whole bike.</param>
/// <param name="Label">What it is called.</param>
/// <param name="About">One sentence about it; may be empty.</param>
/// <param name="Fields">Its fields, in the order of the table.</param>
/// <param name="Lists">Its lists.</param>
public sealed record SpecFieldGroup(
    string Path,
    string Label,
    string About,
    ImmutableArray<SpecField> Fields,
    ImmutableArray<SpecFieldList> Lists
)
{
    /// <summary>How many of its fields the sheet states.</summary>
    public int GivenCount =>
        Fields.Count(f => f.Text is not null)
        + Lists.Sum(list => list.Entries.Sum(entry => entry.Count(f => f.Text is not null)));
}
