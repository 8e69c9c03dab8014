using System.Globalization;

namespace Cogwright.Setup.Procedures.Expressions;

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
            var key = parser.Peek() == ',' ? "expression.comma" : "expression.trailing";
            whole = parser.Fail(parser.at, Texts.Get(key, text[parser.at..]));
        }
        return new(whole, parser.fault);
    }

    private Expression? Sum() => Chain(sign => sign is '+' or '-' or '−', Product);

    private Expression? Product() => Chain(sign => sign is '*' or '×' or '/' or '÷', Signed);

    /// <summary>Values with signs of one rank between them, taken from the left.</summary>
    private Expression? Chain(Func<char, bool> isSign, Func<Expression?> next)
    {
        var left = next();
        while (left is not null && isSign(Peek()))
        {
            var sign = at++;
            var operation = text[sign] switch
            {
                '+' => Arithmetic.Add,
                '*' or '×' => Arithmetic.Multiply,
                '/' or '÷' => Arithmetic.Divide,
                _ => Arithmetic.Subtract,
            };
            left = next() is { } right
                ? new ArithmeticTerm(operation, left, right, sign + 1)
                : null;
        }
        return left;
    }

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
            : Fail(at, Texts.Get(next == '\0' ? "expression.ends" : "expression.noValue", next));
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
        Peek();
        if (ExpressionUnit.At(text, at) is { } found)
        {
            at = found.End;
            return new NumberTerm(number, found.Unit.Name, start + 1);
        }
        var units = string.Join(", ", ExpressionUnit.All.Select(unit => unit.Name));
        return char.IsLetter(Peek())
            ? Fail(at, Texts.Get("expression.unit", Word(), units))
            : new NumberTerm(number, "", start + 1);
    }

    private Expression? Named()
    {
        var start = at;
        var word = Word();
        at += word.Length;
        if (Peek() == '(')
        {
            return
                Enum.GetValues<Operation>().Where(each => Expression.NameOf(each) == word).ToArray()
                    is [var operation]
                ? Operands(operation, start)
                : Fail(start, Texts.Get("expression.operation", word));
        }
        return SpecNames.Find(word) is not null
            ? new NameTerm(word, start + 1)
            : Fail(start, Texts.Get("expression.name", word, SpecNames.Listed));
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
