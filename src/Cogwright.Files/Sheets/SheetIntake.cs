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
                    Take(
                        sequence.Items[i],
                        (shape as ListShape)?.Item,
                        string.Create(CultureInfo.InvariantCulture, $"{path}[{i}]"),
                        found
                    );
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
            && below[value.Key[..dot]] == 1
            && !values.ContainsKey(value.Key[..dot])
            && Shorts.GetValueOrDefault(SpecOrder.TablePath(value.Key[..dot]))
                == value.Key[(dot + 1)..]
                ? new(value.Key[..dot], value.Value)
                : value;
        }
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

    private static string Flow(Node node) =>
        node switch
        {
            SequenceNode sequence => "[" + string.Join(", ", sequence.Items.Select(Flow)) + "]",
            ScalarNode { IsEmpty: true } => "null",
            ScalarNode scalar => FlowText(scalar.Text),
            _ => "",
        };

    /// <summary>A value inside brackets: in quotes when it would end there otherwise.</summary>
    internal static string FlowText(string text) =>
        text.Length == 0 || text.AsSpan().ContainsAny(Meaning) || text != text.Trim()
            ? ValueText.Quoted(text)
            : text;
}
