using System.Buffers;
using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>
/// Brings the ways in which a file may write the same thing to one: <c>rings: [50]</c> and <c>rings: [{teeth: 50}]</c> both
/// become <c>rings[0].teeth</c>, so that an editor finds every figure at its own path.
/// </summary>
internal static class SheetIntake
{
    /// <summary>Groups for which a single value may stand, by table path, with the field it stands for.</summary>
    private static readonly ImmutableDictionary<string, string> Shorts = FieldTable
        .Walk(SpecFields.Spec)
        .Select(row =>
            row.Field.Shape is ListShape list
                ? (Path: row.Path + "[]", (list.Item as GroupShape)?.Short)
                : (row.Path, (row.Field.Shape as GroupShape)?.Short)
        )
        .Where(row => row.Short is not null)
        .ToImmutableDictionary(row => row.Path, row => row.Short!);

    /// <summary>More entries than any list may have.</summary>
    private const int MostEntries = 1000;

    private static readonly ImmutableDictionary<string, Shape> Shapes = FieldTable
        .Walk(SpecFields.Spec)
        .ToImmutableDictionary(row => row.Path, row => row.Field.Shape, StringComparer.Ordinal);

    /// <summary>Characters that mean something to YAML inside brackets.</summary>
    private static readonly SearchValues<char> Meaning = SearchValues.Create(",[]{}#:\"'&*!|>%@`?");

    internal static void Take(
        Node node,
        Shape? shape,
        string path,
        ImmutableSortedDictionary<string, string>.Builder found
    )
    {
        switch (node, shape)
        {
            case (ScalarNode { IsEmpty: true }, _):
                break;
            case (ScalarNode scalar, GroupShape { Short: { } name }):
                found[$"{path}.{name}"] = scalar.Text;
                break;
            case (SequenceNode list, GroupShape { Short: { } name }):
                // Wrong there, but it stands for the main value as any text would.
                found[$"{path}.{name}"] = Flow(list);
                break;
            case (ScalarNode scalar, GearShape) when Gear(scalar.Text) is { } gear:
                found[path + ".ring"] = gear.Ring;
                found[path + ".cog"] = gear.Cog;
                break;
            case (MappingNode named, OffsetShape) when Pair(named) is { } pair:
                found[path] = pair;
                break;
            case (MappingNode mapping, _):
                var group = shape is GearShape ? GearShape.Group : shape as GroupShape;
                foreach (var entry in mapping.Entries)
                {
                    Take(
                        entry.Value,
                        group?.Find(entry.Name)?.Shape,
                        path.Length == 0 ? entry.Name : $"{path}.{entry.Name}",
                        found
                    );
                }
                break;
            case (SequenceNode sequence, ListShape or null)
                when shape is ListShape || sequence.Items.Any(item => item is MappingNode):
                for (var i = 0; i < sequence.Items.Length; i++)
                {
                    var entry = Index(path, i);
                    Take(sequence.Items[i], (shape as ListShape)?.Item, entry, found);
                    if (!found.Keys.Any(key => IsIn(key, entry)))
                    {
                        // An entry in which nothing stands is an entry all the same.
                        found[MainOf(entry)] = "";
                    }
                }
                break;
            default:
                found[path] = (node as ScalarNode)?.Text ?? Flow(node);
                break;
        }
    }

    /// <summary>The values as a file writes them: a group with nothing but its main value is that value alone.</summary>
    /// <param name="values">The values by path.</param>
    /// <param name="rankOf">The place of a path in the file.</param>
    internal static IEnumerable<KeyValuePair<string, string>> Short(
        ImmutableSortedDictionary<string, string> values,
        Func<string, (int Rank, int Index)> rankOf
    )
    {
        var below = values
            .Keys.Where(path => path.Contains('.', StringComparison.Ordinal))
            .CountBy(path => path[..path.LastIndexOf('.')], StringComparer.Ordinal)
            .ToDictionary(StringComparer.Ordinal);
        foreach (var value in values.OrderBy(v => rankOf(v.Key)))
        {
            var dot = value.Key.LastIndexOf('.');
            yield return dot > 0
            && value.Value.Length > 0
            && below[value.Key[..dot]] == 1
            && !values.ContainsKey(value.Key[..dot])
            && Shorts.GetValueOrDefault(SpecOrder.TablePath(value.Key[..dot]))
                == value.Key[(dot + 1)..]
                ? new(value.Key[..dot], value.Value)
                : value;
        }
    }

    /// <summary>
    /// The values with an empty entry wherever a list has none between others: what stands behind it keeps its place, and the
    /// check says what is missing.
    /// </summary>
    internal static ImmutableSortedDictionary<string, string> WithoutGaps(
        ImmutableSortedDictionary<string, string> values
    )
    {
        var there = new Dictionary<string, SortedSet<int>>(StringComparer.Ordinal);
        foreach (var path in values.Keys)
        {
            var open = path.IndexOf('[', StringComparison.Ordinal);
            var close = open < 0 ? -1 : path.IndexOf(']', open);
            if (
                close > 0
                && int.TryParse(
                    path.AsSpan(open + 1, close - open - 1),
                    NumberStyles.None,
                    CultureInfo.InvariantCulture,
                    out var index
                )
                && index < MostEntries
            )
            {
                (
                    there.TryGetValue(path[..open], out var list) ? list : there[path[..open]] = []
                ).Add(index);
            }
        }
        return there.Aggregate(
            values,
            (whole, list) =>
                Enumerable
                    .Range(0, list.Value.Max)
                    .Where(index => !list.Value.Contains(index))
                    .Aggregate(
                        whole,
                        (now, index) => now.SetItem(MainOf(Index(list.Key, index)), "")
                    )
        );
    }

    /// <summary>What the table of fields says of the value at a path, or null when it has none there.</summary>
    internal static Shape? ShapeAt(string path) =>
        Shapes.GetValueOrDefault(SpecOrder.TablePath(path));

    private static string Index(string path, int index) =>
        string.Create(CultureInfo.InvariantCulture, $"{path}[{index}]");

    private static bool IsIn(string path, string entry) =>
        path.StartsWith(entry, StringComparison.Ordinal)
        && (path.Length == entry.Length || path[entry.Length] is '.' or '[');

    /// <summary>The field of an entry of a list that stands for the entry: its main value, or its first.</summary>
    private static string MainOf(string entry)
    {
        var list = ShapeAt(entry[..entry.LastIndexOf('[')]) as ListShape;
        var group = list?.Item is GearShape ? GearShape.Group : list?.Item as GroupShape;
        return group is null ? entry : $"{entry}.{group.Short ?? group.Fields[0].Name}";
    }

    private static (string Ring, string Cog)? Gear(string text)
    {
        var parts = text.Split(['/', '-', '×', 'x'], StringSplitOptions.TrimEntries);
        return
            parts.Length == 2
            && ScalarReader.TryWhole(parts[0], out _)
            && ScalarReader.TryWhole(parts[1], out _)
            ? (parts[0], parts[1])
            : null;
    }

    private static string? Pair(MappingNode named)
    {
        var x = named.Entries.FirstOrDefault(e => e.Name == "x").Value;
        var y = named.Entries.FirstOrDefault(e => e.Name == "y").Value;
        return named.Entries.Length == 2 && x is ScalarNode && y is ScalarNode
            ? $"[{Flow(x)}, {Flow(y)}]"
            : null;
    }

    internal static string Flow(Node node) =>
        node switch
        {
            SequenceNode sequence => "[" + string.Join(", ", sequence.Items.Select(Flow)) + "]",
            ScalarNode { IsEmpty: true } => "null",
            ScalarNode scalar => FlowText(scalar.Text),
            _ => "",
        };

    /// <summary>A value inside brackets: in quotes when it would end there otherwise.</summary>
    internal static string FlowText(string text) =>
        new ScalarNode(text, false, Place.Start).IsEmpty
        || text.AsSpan().ContainsAny(Meaning)
        || text != text.Trim()
            ? ValueText.Quoted(text)
            : text;
}
