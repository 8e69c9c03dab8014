using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Drivetrain;
using Cogwright.Files.Documents;
using Cogwright.Parts;

namespace Cogwright.Files.Fields;

/// <summary>
/// Reads nodes by the field table: each value is checked against its shape, converted to the model's unit and kept
/// with its place. What does not suit is told with what was expected there.
/// </summary>
internal sealed class FieldReader(ProblemList problems, Leaves leaves, GroupShape whole)
{
    /// <summary>Required fields that the file leaves out, with the group each belongs to.</summary>
    private readonly List<(string Group, Field Field)> missing = [];

    private readonly ScalarReader scalars = new(problems, leaves);

    /// <summary>Reads the top of a file and tells what is missing.</summary>
    internal void ReadTop(Node node)
    {
        ReadWithoutMissing(node);
        TellMissing();
    }

    /// <summary>Reads the top of a file; what is missing is told by <see cref="TellMissing"/>, once parts have supplied what they give.</summary>
    internal void ReadWithoutMissing(Node node)
    {
        leaves.SetPlace("", node.Place);
        Read(node, whole, "");
    }

    /// <summary>Reads one value apart from any file.</summary>
    internal void ReadOne(Node node, Shape shape, string path) => Read(node, shape, path);

    /// <summary>Tells the required fields that are still not there.</summary>
    internal void TellMissing()
    {
        foreach (var (group, field) in missing)
        {
            var inner = Join(group, field.Name);
            if (leaves.Has(inner) || leaves.Count(inner) > 0 || leaves.HasGroup(inner))
            {
                continue;
            }
            leaves.SetFailed(inner);
            problems.Error(
                leaves.NearestPlace(group),
                inner,
                Texts.Get("value.missing", field.Name, Expectations.Of(field.Shape))
            );
        }
        missing.Clear();
    }

    private void Read(Node node, Shape shape, string path)
    {
        if (node is ScalarNode { IsEmpty: true } && shape is not RefusedShape)
        {
            scalars.Fail(node.Place, path, Texts.Get("value.empty", Expectations.Of(shape)));
            return;
        }
        switch (shape)
        {
            case GroupShape group:
                ReadGroup(node, group, path);
                break;
            case ListShape list:
                ReadList(node, list, path);
                break;
            case OffsetShape:
                ReadOffset(node, path);
                break;
            case GearShape gear:
                ReadGear(node, gear, path);
                break;
            case TeethShape teeth:
                ReadTeeth(node, teeth, path);
                break;
            case LengthsShape lengths:
                ReadLengths(node, lengths, path);
                break;
            case PartIdsShape ids:
                ReadPartIds(node, ids, path);
                break;
            default:
                if (scalars.Read(node, shape, path) is { } value)
                {
                    leaves.Set(path, value, shape);
                }
                break;
        }
    }

    private void ReadGroup(Node node, GroupShape group, string path)
    {
        if (node is ScalarNode && group.Short is { } shortName)
        {
            Read(node, group.Find(shortName)!.Shape, Join(path, shortName));
            return;
        }
        if (node is not MappingNode mapping)
        {
            scalars.Fail(node.Place, path, Texts.Get("value.notGroup", Expectations.Of(group)));
            return;
        }
        foreach (var entry in mapping.Entries)
        {
            var inner = Join(path, Quoting.Short(entry.Name));
            if (group.Find(entry.Name) is not { } field)
            {
                problems.Error(entry.KeyPlace, inner, UnknownField(entry.Name, group));
                continue;
            }
            var isGroup = field.Shape is GroupShape or ListShape or OffsetShape or GearShape;
            leaves.SetPlace(inner, isGroup ? entry.KeyPlace : entry.Value.Place);
            Read(entry.Value, field.Shape, inner);
        }
        foreach (var field in group.Fields)
        {
            if (field.Need == Need.Required && !mapping.Entries.Any(e => e.Name == field.Name))
            {
                missing.Add((path, field));
            }
        }
    }

    private string UnknownField(string name, GroupShape group)
    {
        var known = group.Fields.Select(f => f.Name).ToList();
        var quoted = Quoting.Short(name);
        if (NearestName.Find(name, known) is { } near)
        {
            return Texts.Get("field.unknownNear", quoted, near);
        }
        var elsewhere = FieldTable
            .Walk(whole)
            .FirstOrDefault(f =>
                f.Path.EndsWith("." + name, StringComparison.OrdinalIgnoreCase)
                || string.Equals(f.Path, name, StringComparison.OrdinalIgnoreCase)
            );
        return elsewhere is not null
            ? Texts.Get("field.unknownElsewhere", quoted, elsewhere.Path)
            : Texts.Get("field.unknown", quoted, string.Join(", ", known));
    }

    private void ReadList(Node node, ListShape list, string path)
    {
        if (node is not SequenceNode sequence)
        {
            scalars.Fail(node.Place, path, Texts.Get("value.notList", Expectations.Of(list)));
            return;
        }
        if (sequence.Items.Length > list.Most)
        {
            scalars.Fail(
                leaves.NearestPlace(path),
                path,
                Texts.Get("value.longList", sequence.Items.Length, list.Most)
            );
            return;
        }
        leaves.SetCount(path, sequence.Items.Length);
        for (var i = 0; i < sequence.Items.Length; i++)
        {
            var inner = Index(path, i);
            leaves.SetPlace(inner, sequence.Items[i].Place);
            Read(sequence.Items[i], list.Item, inner);
        }
    }

    private void ReadOffset(Node node, string path)
    {
        Node? x = null;
        Node? y = null;
        if (node is SequenceNode { Items.Length: 2 } pair)
        {
            (x, y) = (pair.Items[0], pair.Items[1]);
        }
        else if (node is MappingNode { Entries.Length: 2 } named)
        {
            x = named.Entries.FirstOrDefault(e => e.Name == "x").Value;
            y = named.Entries.FirstOrDefault(e => e.Name == "y").Value;
        }
        if (x is null || y is null)
        {
            var key = node is SequenceNode { Items.Length: 3 or 4 }
                ? "value.pairComma"
                : "value.pair";
            scalars.Fail(node.Place, path, Texts.Get(key));
            return;
        }
        var length = new QuantityShape(Dimension.Length);
        leaves.SetPlace($"{path}[0]", x.Place);
        leaves.SetPlace($"{path}[1]", y.Place);
        var forward = scalars.Read(x, length, $"{path}[0]");
        var up = scalars.Read(y, length, $"{path}[1]");
        if (forward is double xMm && up is double yMm)
        {
            leaves.Set(path, new Point(xMm, yMm), new OffsetShape());
        }
        else
        {
            leaves.SetFailed(path);
        }
    }

    private void ReadGear(Node node, GearShape gear, string path)
    {
        if (node is not ScalarNode scalar)
        {
            ReadGroup(node, GearShape.Group, path);
            return;
        }
        var parts = scalar.Text.Split(['/', '-', '×', 'x'], StringSplitOptions.TrimEntries);
        if (
            parts.Length == 2
            && ScalarReader.TryWhole(parts[0], out var ring)
            && ScalarReader.TryWhole(parts[1], out var cog)
        )
        {
            leaves.Set(Join(path, "ring"), ring, new CountShape());
            leaves.Set(Join(path, "cog"), cog, new CountShape());
            return;
        }
        scalars.Fail(node.Place, path, ScalarReader.Wrong(scalar.Text, gear));
    }

    private void ReadTeeth(Node node, TeethShape shape, string path)
    {
        if (node is SequenceNode sequence)
        {
            var teeth = ImmutableArray.CreateBuilder<int>();
            for (var i = 0; i < sequence.Items.Length; i++)
            {
                leaves.SetPlace(Index(path, i), sequence.Items[i].Place);
                if (scalars.Read(sequence.Items[i], new CountShape(), Index(path, i)) is int count)
                {
                    teeth.Add(count);
                }
            }
            if (teeth.Count == sequence.Items.Length)
            {
                leaves.Set(path, teeth.ToImmutable(), shape);
            }
            else
            {
                leaves.SetFailed(path);
            }
            return;
        }
        if (node is not ScalarNode scalar)
        {
            scalars.Fail(node.Place, path, Texts.Get("value.notList", Expectations.Of(shape)));
            return;
        }
        var parts = scalar.Text.Split(['-', '\u2013'], StringSplitOptions.TrimEntries);
        var numbers = ImmutableArray.CreateBuilder<int>(parts.Length);
        foreach (var part in parts)
        {
            if (!ScalarReader.TryWhole(part, out var count))
            {
                scalars.Fail(node.Place, path, ScalarReader.Wrong(scalar.Text, shape));
                return;
            }
            numbers.Add(count);
        }
        if (numbers.Count == 2)
        {
            // "11-34" is how a box names a whole cassette; two cogs are never meant by it.
            scalars.Fail(node.Place, path, Texts.Get("value.cogRange", numbers[0], numbers[1]));
            return;
        }
        leaves.Set(path, numbers.ToImmutable(), shape);
    }

    private void ReadLengths(Node node, LengthsShape shape, string path)
    {
        if (node is not SequenceNode sequence)
        {
            scalars.Fail(node.Place, path, Texts.Get("value.notList", Expectations.Of(shape)));
            return;
        }
        var lengths = ImmutableArray.CreateBuilder<double?>();
        for (var i = 0; i < sequence.Items.Length; i++)
        {
            var item = sequence.Items[i];
            leaves.SetPlace(Index(path, i), item.Place);
            lengths.Add(
                item is ScalarNode { IsEmpty: true } && shape.MayMiss
                    ? null
                    : scalars.Read(item, new QuantityShape(Dimension.Length), Index(path, i))
                        as double?
            );
        }
        leaves.Set(path, lengths.ToImmutable(), shape);
    }

    private void ReadPartIds(Node node, PartIdsShape shape, string path)
    {
        ImmutableArray<Node> items = node switch
        {
            SequenceNode sequence => sequence.Items,
            ScalarNode => [node],
            _ => [],
        };
        if (node is MappingNode || items.Length > PartsFields.MostAdapters)
        {
            scalars.Fail(node.Place, path, Texts.Get("value.notList", Expectations.Of(shape)));
            return;
        }
        var ids = ImmutableArray.CreateBuilder<string>(items.Length);
        for (var i = 0; i < items.Length; i++)
        {
            leaves.SetPlace(Index(path, i), items[i].Place);
            if (
                scalars.Read(items[i], new PartIdShape(PartKind.Adapter), Index(path, i))
                is string id
            )
            {
                ids.Add(id);
            }
        }
        leaves.Set(path, ids.ToImmutable(), shape);
    }

    private static string Join(string path, string name) =>
        path.Length == 0 ? name : $"{path}.{name}";

    private static string Index(string path, int index) =>
        string.Create(CultureInfo.InvariantCulture, $"{path}[{index}]");
}
