using System.Globalization;

namespace Cogwright.Setup.Procedures.Expressions;

/// <summary>The outcome of reading an expression: the expression, or what is wrong where. Immutable.</summary>
/// <param name="Expression">The expression, or null.</param>
/// <param name="Fault">What is wrong, or null.</param>
public sealed record ExpressionReading(Expression? Expression, ExpressionFault? Fault);

/// <summary>
/// Reads expressions by descent through the grammar
/// <code>
/// sum     = product { ("+" | "-") product }
/// product = signed { ("*" | "/") signed }
/// signed  = "-" signed | value
/// value   = number [unit] | name | operation "(" sum ["," sum] ")" | "(" sum ")"
/// </code>
/// It is written by hand because it is this small: the browser loads it, and every error knows its column.
/// </summary>
public sealed class ExpressionParser
{
    /// <summary>Longest text that is read (characters); it also bounds how deep brackets nest.</summary>
    public const int LongestText = 200;

    private const int MostDigits = 15;

    private readonly string text;
    private int at;
    private ExpressionFault? fault;

    private ExpressionParser(string text) => this.text = text;

    /// <summary>Reads a text; nothing is thrown for a bad one.</summary>
    public static ExpressionReading Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length > LongestText)
        {
            return new(null, new(LongestText + 1, Texts.Get("expression.tooLong", LongestText)));
        }
        var parser = new ExpressionParser(text);
        var whole = parser.Sum();
        if (whole is not null && parser.Peek() != '\0')
        {
            whole = parser.Fail(
                parser.at,
                parser.Peek() == ','
                    ? Texts.Get("expression.comma")
                    : Texts.Get("expression.trailing", parser.text[parser.at..])
            );
        }
        return new(whole, parser.fault);
    }

    private Expression? Sum()
    {
        var left = Product();
        while (left is not null && Peek() is '+' or '-' or '−')
        {
            var sign = at++;
            left = Join(
                left,
                text[sign] == '+' ? Arithmetic.Add : Arithmetic.Subtract,
                Product(),
                sign
            );
        }
        return left;
    }

    private Expression? Product()
    {
        var left = Signed();
        while (left is not null && Peek() is '*' or '×' or '/' or '÷')
        {
            var sign = at++;
            left = Join(
                left,
                text[sign] is '*' or '×' ? Arithmetic.Multiply : Arithmetic.Divide,
                Signed(),
                sign
            );
        }
        return left;
    }

    private static ArithmeticTerm? Join(
        Expression left,
        Arithmetic operation,
        Expression? right,
        int sign
    ) => right is null ? null : new(operation, left, right, sign + 1);

    private Expression? Signed()
    {
        if (Peek() is not ('-' or '−'))
        {
            return Value();
        }
        var sign = at++;
        return Signed() is { } negated ? new NegatedTerm(negated, sign + 1) : null;
    }

    private Expression? Value()
    {
        var next = Peek();
        if (next == '(')
        {
            at++;
            return Sum() is { } inner && Take(')') ? inner : null;
        }
        return char.IsAsciiDigit(next) ? Number()
            : char.IsAsciiLetter(next) ? Named()
            : Fail(
                at,
                next == '\0' ? Texts.Get("expression.ends") : Texts.Get("expression.noValue", next)
            );
    }

    private Expression? Number()
    {
        var start = at;
        while (at < text.Length && (char.IsAsciiDigit(text[at]) || text[at] == '.'))
        {
            at++;
        }
        var digits = text.AsSpan(start, at - start);
        if (
            digits.Length > MostDigits
            || !decimal.TryParse(
                digits,
                NumberStyles.AllowDecimalPoint,
                CultureInfo.InvariantCulture,
                out var number
            )
        )
        {
            return Fail(start, Texts.Get("expression.number", digits.ToString()));
        }
        var next = Peek();
        foreach (var unit in ExpressionUnit.All)
        {
            foreach (var spelling in unit.Spellings)
            {
                var end = at + spelling.Length;
                if (
                    text.AsSpan(at).StartsWith(spelling, StringComparison.Ordinal)
                    && (end >= text.Length || !char.IsLetterOrDigit(text[end]))
                )
                {
                    at = end;
                    return new NumberTerm(number, unit.Name, start + 1);
                }
            }
        }
        return char.IsLetter(next) || next == '°'
            ? Fail(
                at,
                Texts.Get(
                    "expression.unit",
                    Word(),
                    string.Join(", ", ExpressionUnit.All.Select(unit => unit.Name))
                )
            )
            : new NumberTerm(number, "", start + 1);
    }

    private Expression? Named()
    {
        var start = at;
        var word = Word();
        at += word.Length;
        if (Peek() == '(')
        {
            foreach (var operation in Enum.GetValues<Operation>())
            {
                if (Expression.NameOf(operation) == word)
                {
                    return Operands(operation, start);
                }
            }
            return Fail(start, Texts.Get("expression.operation", word));
        }
        return SpecNames.Find(word) is not null
            ? new NameTerm(word, start + 1)
            : Fail(
                start,
                Texts.Get(
                    "expression.name",
                    word,
                    string.Join(", ", SpecNames.OfBike.Select(name => name.Name))
                )
            );
    }

    private OperationTerm? Operands(Operation operation, int start)
    {
        at++;
        if (Sum() is not { } first)
        {
            return null;
        }
        Expression? second = null;
        if (operation is Operation.Min or Operation.Max)
        {
            second = Take(',') ? Sum() : null;
            if (second is null)
            {
                return null;
            }
        }
        return Take(')') ? new(operation, first, second, start + 1) : null;
    }

    private string Word()
    {
        var end = at;
        while (end < text.Length && (char.IsLetterOrDigit(text[end]) || text[end] == '.'))
        {
            end++;
        }
        return text[at..end];
    }

    private char Peek()
    {
        while (at < text.Length && text[at] == ' ')
        {
            at++;
        }
        return at < text.Length ? text[at] : '\0';
    }

    private bool Take(char wanted)
    {
        if (Peek() == wanted)
        {
            at++;
            return true;
        }
        Fail(at, Texts.Get("expression.wanted", wanted));
        return false;
    }

    private Expression? Fail(int index, string message)
    {
        fault ??= new(index + 1, message);
        return null;
    }
}
