using System.Collections.Immutable;
using Cogwright.Parts;

namespace Cogwright.Files.Fields;

/// <summary>Whether a field must stand in the file.</summary>
internal enum Need
{
    /// <summary>It may be left out.</summary>
    Optional,

    /// <summary>It must be there.</summary>
    Required,

    /// <summary>It must be there unless a class of mechanism supplies it.</summary>
    OrClass,

    /// <summary>It must be there unless a part that the file names supplies it.</summary>
    OrPart,
}

/// <summary>What a value in a file looks like. The reader, the schema and the guide are all made from shapes.</summary>
internal abstract record Shape;

/// <summary>A named place in a group.</summary>
/// <param name="Name">The name as written in the file.</param>
/// <param name="Shape">What stands there.</param>
/// <param name="Need">Whether it must stand there.</param>
internal sealed record Field(string Name, Shape Shape, Need Need);

/// <summary>Named fields. With <paramref name="Short"/>, a single value stands for the field of that name.</summary>
internal sealed record GroupShape(ImmutableArray<Field> Fields, string? Short = null) : Shape
{
    internal Field? Find(string name) => Fields.FirstOrDefault(f => f.Name == name);
}

/// <summary>A list of like values.</summary>
internal sealed record ListShape(Shape Item, int Most) : Shape;

/// <summary>Free text on one line.</summary>
internal sealed record TextShape(int Most = 200) : Shape;

/// <summary>true or false.</summary>
internal sealed record FlagShape : Shape;

/// <summary>A day, such as 2026-03-02.</summary>
internal sealed record DateShape : Shape;

/// <summary>A whole number.</summary>
internal sealed record CountShape : Shape;

/// <summary>One of some names; they are asked for late, because those of classes are read from data.</summary>
internal sealed record ChoiceShape(Func<IReadOnlyList<string>> Names) : Shape;

/// <summary>One of some whole numbers.</summary>
internal sealed record NumberChoiceShape(ImmutableArray<int> Numbers) : Shape;

/// <summary>A number with a unit.</summary>
internal sealed record QuantityShape(Dimension Dimension) : Shape;

/// <summary>A length as it is read off a rule or typed by a gauge: mm, or inches with a fraction.</summary>
internal sealed record TapeShape : Shape;

/// <summary>A bare number without a unit.</summary>
internal sealed record NumberShape : Shape;

/// <summary>A measured value whose kind is only known from what was measured; length, angle, torque or a bare number.</summary>
internal sealed record AnyQuantityShape : Shape;

/// <summary>A figure with its unit, or an expression over the spec.</summary>
internal sealed record ExpressionShape : Shape;

/// <summary>Two lengths: forward and up.</summary>
internal sealed record OffsetShape : Shape;

/// <summary>One ring with one cog: a group of the two, or text such as 50/34.</summary>
internal sealed record GearShape : Shape
{
    internal static GroupShape Group { get; } =
        new([
            new("ring", new CountShape(), Need.Required),
            new("cog", new CountShape(), Need.Required),
        ]);
}

/// <summary>Numbers of teeth: a list, or text such as 11-12-13-14.</summary>
internal sealed record TeethShape : Shape;

/// <summary>Lengths, of which some may be left empty when <paramref name="MayMiss"/> says so.</summary>
internal sealed record LengthsShape(bool MayMiss = true) : Shape;

/// <summary>The id of a part of that kind.</summary>
internal sealed record PartIdShape(PartKind Kind) : Shape;

/// <summary>The ids of adapters: a list, or one alone.</summary>
internal sealed record PartIdsShape : Shape;

/// <summary>A feature that the model does not have: anything but false is refused with that sentence.</summary>
internal sealed record RefusedShape(string TextKey) : Shape;
