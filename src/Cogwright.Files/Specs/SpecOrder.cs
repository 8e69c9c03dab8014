using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>The place of a field in the order of the table, in which files are written and assumptions told.</summary>
internal static partial class SpecOrder
{
    private static readonly ImmutableDictionary<string, int> Rows = FieldTable
        .Walk(SpecFields.Spec)
        .Select((row, i) => (row.Path, i))
        .ToImmutableDictionary(r => r.Path, r => r.i);

    internal static int Of(string path) => Rows.GetValueOrDefault(TablePath(path), int.MaxValue);

    /// <summary>The path as it stands in the table: <c>rings[]</c> for every ring.</summary>
    internal static string TablePath(string path) => Indices().Replace(path, "[]");

    [GeneratedRegex(@"\[\d+\]")]
    private static partial Regex Indices();
}
