using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Files.Documents;
using Cogwright.Parts;
using Cogwright.Setup.Procedures.Expressions;

namespace Cogwright.Files.Fields;

/// <summary>Reads single values: text, numbers, quantities with units, names out of a choice.</summary>
internal sealed class ScalarReader(ProblemList problems, Leaves leaves)
{
    /// <summary>The value, or null after telling what is wrong with it.</summary>
    internal object? Read(Node node, Shape shape, string path)
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
            DateShape => ReadDate(scalar, shape, path),
            CountShape => ReadCount(scalar, shape, path),
            ChoiceShape choice => ReadChoice(scalar, choice, path),
            NumberChoiceShape numbers => ReadNumberChoice(scalar, numbers, path),
            QuantityShape quantity => ReadQuantity(scalar, quantity, path),
            NumberShape => ReadNumber(scalar, shape, path),
            TapeShape => ReadTape(scalar, shape, path),
            AnyQuantityShape => ReadAnyQuantity(scalar, shape, path),
            PartIdShape => ReadPartId(scalar, shape, path),
            ExpressionShape => ReadExpression(scalar, path),
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

    private string? ReadPartId(ScalarNode scalar, Shape shape, string path)
    {
        if (PartNames.IsId(scalar.Text))
        {
            return scalar.Text;
        }
        Fail(scalar.Place, path, Wrong(scalar.Text, shape));
        return null;
    }

    private Expression? ReadExpression(ScalarNode scalar, string path)
    {
        var (expression, fault) = ExpressionParser.Read(scalar.Text);
        if (expression is not null)
        {
            fault = ExpressionMeaning.DimensionOf(expression).Fault;
        }
        if (fault is null)
        {
            return expression;
        }
        // In quotes the text begins one column later.
        var column = scalar.Place.Column + (scalar.IsQuoted ? 1 : 0) + fault.Column - 1;
        Fail(scalar.Place with { Column = column }, path, fault.Message);
        return null;
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

    // As typed into the app: 12 1/16 in and 306,2 mm are lengths here, as they are on a rule and on a caliper.
    private double? ReadTape(ScalarNode scalar, Shape shape, string path)
    {
        if (FieldTyping.LengthMm(scalar.Text) is { } mm && double.IsFinite(mm))
        {
            return mm;
        }
        Fail(scalar.Place, path, Wrong(scalar.Text, shape));
        return null;
    }

    private DateOnly? ReadDate(ScalarNode scalar, Shape shape, string path)
    {
        if (
            DateOnly.TryParseExact(
                scalar.Text,
                "yyyy-MM-dd",
                CultureInfo.InvariantCulture,
                DateTimeStyles.None,
                out var date
            )
        )
        {
            return date;
        }
        Fail(scalar.Place, path, Wrong(scalar.Text, shape));
        return null;
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

    private double? ReadNumber(ScalarNode scalar, Shape shape, string path)
    {
        if (Number(scalar, shape, path, out var rest) is not { } value)
        {
            return null;
        }
        if (rest.Length == 0)
        {
            return value;
        }
        Fail(scalar.Place, path, Wrong(scalar.Text, shape));
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

    internal static string Wrong(string written, Shape shape) =>
        Texts.Get("value.wrong", Quoting.Short(written), Expectations.Of(shape));

    internal void Fail(Place place, string path, string message)
    {
        leaves.SetFailed(path);
        problems.Error(place, path, message);
    }

    internal static bool TryWhole(string text, out int value) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value);
}
