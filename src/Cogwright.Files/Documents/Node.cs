using System.Collections.Immutable;

namespace Cogwright.Files.Documents;

/// <summary>A place in a text: line and column, both counted from 1.</summary>
internal readonly record struct Place(int Line, int Column) : IComparable<Place>
{
    internal static Place Start => new(1, 1);

    public int CompareTo(Place other) =>
        Line != other.Line ? Line.CompareTo(other.Line) : Column.CompareTo(other.Column);
}

/// <summary>A value of a document, with the place where it starts.</summary>
internal abstract record Node(Place Place);

/// <summary>A single value, as it was written.</summary>
/// <param name="Text">The text, quotes and escapes resolved.</param>
/// <param name="IsQuoted">Whether it stood in quotes or in a block, and so is text whatever it looks like.</param>
/// <param name="Place">Where it starts.</param>
internal sealed record ScalarNode(string Text, bool IsQuoted, Place Place) : Node(Place)
{
    /// <summary>Nothing was written: <c>key:</c> alone, <c>~</c> or <c>null</c>.</summary>
    internal bool IsEmpty => !IsQuoted && Text is "" or "~" or "null" or "Null" or "NULL";
}

/// <summary>A list of values.</summary>
internal sealed record SequenceNode(ImmutableArray<Node> Items, Place Place) : Node(Place);

/// <summary>Named values, in the order of the file, each name once.</summary>
internal sealed record MappingNode(ImmutableArray<Entry> Entries, Place Place) : Node(Place);

/// <summary>One named value; <see cref="KeyPlace"/> is where its name starts.</summary>
internal readonly record struct Entry(string Name, Place KeyPlace, Node Value);
