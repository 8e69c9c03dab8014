using System.Globalization;

namespace Cogwright.Setup.Procedures.Expressions;

/// <summary>What stands between two values of an expression.</summary>
public enum Arithmetic
{
    /// <summary>+, of two values in the same unit.</summary>
    Add,

    /// <summary>−, of two values in the same unit.</summary>
    Subtract,

    /// <summary>×.</summary>
    Multiply,

    /// <summary>÷; by nought it is an error, never infinite.</summary>
    Divide,
}

/// <summary>What an expression can do with one or two values by name.</summary>
public enum Operation
{
    /// <summary>min(a, b): the smaller of two values in the same unit.</summary>
    Min,

    /// <summary>max(a, b): the greater of two values in the same unit.</summary>
    Max,

    /// <summary>round(a): to a whole number of its unit, halves away from nought.</summary>
    Round,

    /// <summary>abs(a): without its sign.</summary>
    Abs,
}

/// <summary>
/// A target written so that one procedure serves many bikes: numbers with units, + − × ÷, min, max, round, abs and the named
/// quantities of a spec (<see cref="SpecNames"/>). It is data: it can name nothing else and runs no code. Immutable.
/// </summary>
/// <param name="Column">Where it stands in the text of the expression, counted from 1; that of the sign for a sum or product.</param>
public abstract record Expression(int Column)
{
    /// <summary>The expression as text that <see cref="ExpressionParser"/> reads back as the same.</summary>
    public string Print() =>
        this switch
        {
            NumberTerm number => number.Value.ToString(
                "0.############################",
                CultureInfo.InvariantCulture
            ) + (number.Unit.Length == 0 ? "" : " " + number.Unit),
            NameTerm name => name.Name,
            NegatedTerm negated => "-" + Inside(negated.Negated, negated.Negated is ArithmeticTerm),
            OperationTerm operation => Print(operation),
            ArithmeticTerm arithmetic => Print(arithmetic),
            _ => throw new InvalidOperationException(GetType().Name),
        };

    /// <summary>Whether it names a quantity of the spec, so that its value differs from bike to bike.</summary>
    public bool NeedsSpec =>
        this switch
        {
            NameTerm => true,
            NegatedTerm negated => negated.Negated.NeedsSpec,
            OperationTerm operation => operation.First.NeedsSpec
                || operation.Second?.NeedsSpec == true,
            ArithmeticTerm arithmetic => arithmetic.Left.NeedsSpec || arithmetic.Right.NeedsSpec,
            _ => false,
        };

    /// <inheritdoc />
    public sealed override string ToString() => Print();

    private static string Print(OperationTerm operation)
    {
        var name = NameOf(operation.Operation);
        return operation.Second is null
            ? $"{name}({operation.First.Print()})"
            : $"{name}({operation.First.Print()}, {operation.Second.Print()})";
    }

    private static string Print(ArithmeticTerm term)
    {
        var sign = term.Operation switch
        {
            Arithmetic.Add => "+",
            Arithmetic.Subtract => "-",
            Arithmetic.Multiply => "*",
            _ => "/",
        };
        // The grammar takes equals from the left, so an equal on the right needs its brackets.
        var left = Inside(term.Left, Rank(term.Left) < Rank(term));
        var right = Inside(term.Right, Rank(term.Right) <= Rank(term));
        return $"{left} {sign} {right}";
    }

    internal static string NameOf(Operation operation) =>
        operation switch
        {
            Operation.Min => "min",
            Operation.Max => "max",
            Operation.Round => "round",
            _ => "abs",
        };

    private static int Rank(Expression expression) =>
        expression switch
        {
            ArithmeticTerm { Operation: Arithmetic.Add or Arithmetic.Subtract } => 1,
            ArithmeticTerm => 2,
            _ => 3,
        };

    private static string Inside(Expression expression, bool inBrackets) =>
        inBrackets ? $"({expression.Print()})" : expression.Print();
}

/// <summary>A number with its unit. Immutable.</summary>
/// <param name="Value">The number as written, never negative.</param>
/// <param name="Unit">mm, °, N·m, pitches, teeth or %; empty for a bare number.</param>
/// <param name="Column">Where it stands.</param>
public sealed record NumberTerm(decimal Value, string Unit, int Column) : Expression(Column);

/// <summary>A named quantity of the spec. Immutable.</summary>
/// <param name="Name">One of <see cref="SpecNames"/>.</param>
/// <param name="Column">Where it stands.</param>
public sealed record NameTerm(string Name, int Column) : Expression(Column);

/// <summary>A value with the other sign. Immutable.</summary>
/// <param name="Negated">The value.</param>
/// <param name="Column">Where the sign stands.</param>
public sealed record NegatedTerm(Expression Negated, int Column) : Expression(Column);

/// <summary>Two values with a sign between them. Immutable.</summary>
/// <param name="Operation">The sign.</param>
/// <param name="Left">The value before it.</param>
/// <param name="Right">The value behind it.</param>
/// <param name="Column">Where the sign stands.</param>
public sealed record ArithmeticTerm(
    Arithmetic Operation,
    Expression Left,
    Expression Right,
    int Column
) : Expression(Column);

/// <summary>An operation by name. Immutable.</summary>
/// <param name="Operation">Which.</param>
/// <param name="First">Its first value.</param>
/// <param name="Second">Its second value; null for round and abs.</param>
/// <param name="Column">Where its name stands.</param>
public sealed record OperationTerm(
    Operation Operation,
    Expression First,
    Expression? Second,
    int Column
) : Expression(Column);

/// <summary>What is wrong with an expression. Immutable.</summary>
/// <param name="Column">Where, counted from 1 in the text of the expression.</param>
/// <param name="Message">What, and what to do.</param>
public sealed record ExpressionFault(int Column, string Message);

/// <summary>The outcome of reading an expression: the expression, or what is wrong where. Immutable.</summary>
/// <param name="Expression">The expression, or null.</param>
/// <param name="Fault">What is wrong, or null.</param>
public sealed record ExpressionReading(Expression? Expression, ExpressionFault? Fault);
