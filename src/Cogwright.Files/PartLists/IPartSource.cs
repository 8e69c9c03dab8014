using Cogwright.Files.Documents;

namespace Cogwright.Files;

/// <summary>One named value of a part, as it stands in a file.</summary>
/// <param name="Name">The field's name; <c>spec.</c> and a path for a value that the part gives to a spec.</param>
/// <param name="Text">What is written; of a list, its items in brackets.</param>
/// <param name="Items">The items, where the file itself separates them; null for a single value.</param>
/// <param name="Place">Where it stands.</param>
internal readonly record struct PartCell(
    string Name,
    string Text,
    IReadOnlyList<string>? Items,
    Place Place
);

/// <summary>The entries of a parts file, one after the other.</summary>
internal interface IPartSource : IDisposable
{
    /// <summary>The values of the present entry; empty when its form is wrong, which has been told.</summary>
    IReadOnlyList<PartCell> Cells { get; }

    /// <summary>Where the present entry begins.</summary>
    Place Place { get; }

    /// <summary>Whether the file turned out to be one that this program cannot read.</summary>
    bool IsUnusable { get; }

    /// <summary>The columns, where the file is a table; null otherwise.</summary>
    IEnumerable<string>? Columns { get; }

    /// <summary>Goes to the next entry; false at the end.</summary>
    bool Next();
}
