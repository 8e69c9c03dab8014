using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Drivetrain;
using Cogwright.Files.Documents;

namespace Cogwright.Files.Fields;

/// <summary>
/// Reads nodes by the field table: each value is checked against its shape, converted to the model's unit and kept
/// with its place. What does not suit is told with what was expected there.
/// </summary>
internal sealed class FieldReader(ProblemList problems, Leaves leaves, GroupShape whole)
{
    /// <summary>Reads the top of a file.</summary>
    internal void ReadTop(Node node)
    {
        leaves.SetPlace("", node.Place);
        Read(node, whole, "");
    }

    private void Read(Node node, Shape shape, string path)
    {
        if (node is ScalarNode { IsEmpty: true } && shape is not RefusedShape)
        {
            Fail(node.Place, path, Texts.Get("value.empty", Expectations.Of(shape)));
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
            default:
                if (ReadScalar(node, shape, path) is { } value)
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
            Fail(node.Place, path, Texts.Get("value.notGroup", Expectations.Of(group)));
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
                var inner = Join(path, field.Name);
                leaves.SetFailed(inner);
                problems.Error(
                    leaves.NearestPlace(path),
                    inner,
                    Texts.Get("value.missing", field.Name, Expectations.Of(field.Shape))
                );
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
            Fail(node.Place, path, Texts.Get("value.notList", Expectations.Of(list)));
            return;
        }
        if (sequence.Items.Length > list.Most)
        {
            Fail(
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
            Fail(node.Place, path, Texts.Get(key));
            return;
        }
        var length = new QuantityShape(Dimension.Length);
        leaves.SetPlace($"{path}[0]", x.Place);
        leaves.SetPlace($"{path}[1]", y.Place);
        var forward = ReadScalar(x, length, $"{path}[0]");
        var up = ReadScalar(y, length, $"{path}[1]");
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
            && TryWhole(parts[0], out var ring)
            && TryWhole(parts[1], out var cog)
        )
        {
            leaves.Set(Join(path, "ring"), ring, new CountShape());
            leaves.Set(Join(path, "cog"), cog, new CountShape());
            return;
        }
        Fail(node.Place, path, Wrong(scalar.Text, gear));
    }

    private void ReadTeeth(Node node, TeethShape shape, string path)
    {
        if (node is SequenceNode sequence)
        {
            var teeth = ImmutableArray.CreateBuilder<int>();
            for (var i = 0; i < sequence.Items.Length; i++)
            {
                leaves.SetPlace(Index(path, i), sequence.Items[i].Place);
                if (ReadScalar(sequence.Items[i], new CountShape(), Index(path, i)) is int count)
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
            Fail(node.Place, path, Texts.Get("value.notList", Expectations.Of(shape)));
            return;
        }
        var parts = scalar.Text.Split(['-', '\u2013'], StringSplitOptions.TrimEntries);
        var numbers = ImmutableArray.CreateBuilder<int>(parts.Length);
        foreach (var part in parts)
        {
            if (!TryWhole(part, out var count))
            {
                Fail(node.Place, path, Wrong(scalar.Text, shape));
                return;
            }
            numbers.Add(count);
        }
        if (numbers.Count == 2)
        {
            // "11-34" is how a box names a whole cassette; two cogs are never meant by it.
            Fail(node.Place, path, Texts.Get("value.cogRange", numbers[0], numbers[1]));
            return;
        }
        leaves.Set(path, numbers.ToImmutable(), shape);
    }

    private void ReadLengths(Node node, LengthsShape shape, string path)
    {
        if (node is not SequenceNode sequence)
        {
            Fail(node.Place, path, Texts.Get("value.notList", Expectations.Of(shape)));
            return;
        }
        var lengths = ImmutableArray.CreateBuilder<double?>();
        for (var i = 0; i < sequence.Items.Length; i++)
        {
            var item = sequence.Items[i];
            leaves.SetPlace(Index(path, i), item.Place);
            lengths.Add(
                item is ScalarNode { IsEmpty: true }
                    ? null
                    : ReadScalar(item, new QuantityShape(Dimension.Length), Index(path, i))
                        as double?
            );
        }
        leaves.Set(path, lengths.ToImmutable(), shape);
    }

    /// <summary>The value, or null after telling what is wrong with it.</summary>
    private object? ReadScalar(Node node, Shape shape, string path)
    {
        if (shape is RefusedShape refused)
        {
            if (node is not ScalarNode { IsQuoted: false, Text: "false" })
            {
                Fail(node.Place, path, Texts.Get(refused.TextKey));
            }
            return null;
        }
        if (node is not ScalarNode scalar)
        {
            Fail(node.Place, path, Texts.Get("value.notSingle", Expectations.Of(shape)));
            return null;
        }
        if (scalar.IsEmpty || string.IsNullOrWhiteSpace(scalar.Text))
        {
            Fail(node.Place, path, Texts.Get("value.empty", Expectations.Of(shape)));
            return null;
        }
        return shape switch
        {
            TextShape text => ReadText(scalar, text, path),
            FlagShape => ReadFlag(scalar, shape, path),
            CountShape => ReadCount(scalar, shape, path),
            ChoiceShape choice => ReadChoice(scalar, choice, path),
            NumberChoiceShape numbers => ReadNumberChoice(scalar, numbers, path),
            QuantityShape quantity => ReadQuantity(scalar, quantity, path),
            AnyQuantityShape => ReadAnyQuantity(scalar, shape, path),
            _ => throw new ArgumentOutOfRangeException(nameof(shape)),
        };
    }

    private string? ReadText(ScalarNode scalar, TextShape shape, string path)
    {
        if (scalar.Text.Length > shape.Most || scalar.Text.AsSpan().ContainsAny('\n', '\r', '\t'))
        {
            Fail(scalar.Place, path, Texts.Get("value.longText", shape.Most));
            return null;
        }
        return scalar.Text;
    }

    private bool? ReadFlag(ScalarNode scalar, Shape shape, string path)
    {
        switch (scalar)
        {
            case { IsQuoted: false, Text: "true" or "True" or "TRUE" }:
                return true;
            case { IsQuoted: false, Text: "false" or "False" or "FALSE" }:
                return false;
            default:
                Fail(scalar.Place, path, Wrong(scalar.Text, shape));
                return null;
        }
    }

    private int? ReadCount(ScalarNode scalar, Shape shape, string path)
    {
        if (Number(scalar, shape, path, out var rest) is not { } value)
        {
            return null;
        }
        if (rest.Length > 0 || value != Math.Floor(value) || Math.Abs(value) > 1e9)
        {
            Fail(scalar.Place, path, Texts.Get("value.notWhole", Quoting.Short(scalar.Text)));
            return null;
        }
        return (int)value;
    }

    private string? ReadChoice(ScalarNode scalar, ChoiceShape choice, string path)
    {
        var names = choice.Names();
        if (names.Contains(scalar.Text))
        {
            return scalar.Text;
        }
        var listed = string.Join(", ", NearestName.NearestFirst(scalar.Text, names));
        var near = NearestName.Find(scalar.Text, names);
        Fail(
            scalar.Place,
            path,
            near is null
                ? Texts.Get("value.choice", Quoting.Short(scalar.Text), listed)
                : Texts.Get("value.choiceNear", Quoting.Short(scalar.Text), near, listed)
        );
        return null;
    }

    private int? ReadNumberChoice(ScalarNode scalar, NumberChoiceShape shape, string path)
    {
        if (TryWhole(scalar.Text, out var number) && shape.Numbers.Contains(number))
        {
            return number;
        }
        Fail(
            scalar.Place,
            path,
            Texts.Get("value.choice", Quoting.Short(scalar.Text), string.Join(", ", shape.Numbers))
        );
        return null;
    }

    private double? ReadQuantity(ScalarNode scalar, QuantityShape shape, string path)
    {
        if (Number(scalar, shape, path, out var rest) is not { } value)
        {
            return null;
        }
        if (rest.Length == 0)
        {
            return value * Units.BareToModel(shape.Dimension);
        }
        if (Units.Find(shape.Dimension, rest) is { } unit)
        {
            return Units.ToModel(value, unit);
        }
        Fail(scalar.Place, path, UnknownUnit(rest, Units.Of(shape.Dimension)));
        return null;
    }

    private MeasuredValue? ReadAnyQuantity(ScalarNode scalar, Shape shape, string path)
    {
        if (Number(scalar, shape, path, out var rest) is not { } value)
        {
            return null;
        }
        if (rest.Length == 0)
        {
            return new(value, "");
        }
        if (rest == "pitches")
        {
            return new(value, "pitches");
        }
        var dimensions = (Dimension[])
            [
                Dimension.Length,
                Dimension.Angle,
                Dimension.Torque,
                Dimension.Fraction,
                Dimension.Turns,
            ];
        foreach (var dimension in dimensions)
        {
            if (Units.Find(dimension, rest) is { } unit)
            {
                // Readings stay in the units of screens and files: degrees, not radians.
                return dimension switch
                {
                    Dimension.Angle => new(unit.Name == "°" ? value : value * 180 / Math.PI, "°"),
                    Dimension.Fraction => new(value, "%"),
                    Dimension.Turns => new(value, "turns"),
                    _ => new(Units.ToModel(value, unit), Units.Of(dimension)[0].Name),
                };
            }
        }
        Fail(scalar.Place, path, UnknownUnit(rest, [.. dimensions.SelectMany(d => Units.Of(d))]));
        return null;
    }

    private static string UnknownUnit(string written, ImmutableArray<Unit> units)
    {
        var listed = string.Join(", ", units.Select(u => u.Name));
        var spellings = units.SelectMany(u => u.Spellings.Prepend(u.Name));
        return NearestName.Find(written, spellings) is { } near
            ? Texts.Get("value.unitNear", Quoting.Short(written), near, listed)
            : Texts.Get("value.unit", Quoting.Short(written), listed);
    }

    private double? Number(ScalarNode scalar, Shape shape, string path, out string rest)
    {
        var outcome = NumberText.Take(scalar.Text, out var value, out rest);
        if (outcome == NumberOutcome.Number)
        {
            return value;
        }
        var quoted = Quoting.Short(scalar.Text.Trim());
        Fail(
            scalar.Place,
            path,
            outcome switch
            {
                NumberOutcome.DecimalComma => Texts.Get(
                    "value.decimalComma",
                    quoted,
                    quoted.Replace(',', '.')
                ),
                NumberOutcome.NotFinite => Texts.Get(
                    "value.notFinite",
                    quoted,
                    Expectations.Of(shape)
                ),
                NumberOutcome.TooLarge => Texts.Get(
                    "value.tooLarge",
                    quoted,
                    Expectations.Of(shape)
                ),
                NumberOutcome.Hexadecimal => Texts.Get("value.hexadecimal", quoted),
                _ => Wrong(scalar.Text, shape),
            }
        );
        return null;
    }

    private static string Wrong(string written, Shape shape) =>
        Texts.Get("value.wrong", Quoting.Short(written), Expectations.Of(shape));

    private void Fail(Place place, string path, string message)
    {
        leaves.SetFailed(path);
        problems.Error(place, path, message);
    }

    private static bool TryWhole(string text, out int value) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value);

    private static string Join(string path, string name) =>
        path.Length == 0 ? name : $"{path}.{name}";

    private static string Index(string path, int index) =>
        string.Create(CultureInfo.InvariantCulture, $"{path}[{index}]");
}
