namespace Cogwright.Setup.Procedures.Expressions;

/// <summary>A value with what kind of quantity it is. Immutable.</summary>
/// <param name="Number">In mm, °, N·m, pitches, teeth or as a bare number; always finite.</param>
/// <param name="Dimension">Which of these.</param>
public readonly record struct ExpressionValue(double Number, UnitDimension Dimension);

/// <summary>The outcome of working out an expression: its value, or what is wrong where. Immutable.</summary>
/// <param name="Value">The value, or null.</param>
/// <param name="Fault">What is wrong, or null.</param>
public sealed record ExpressionResult(ExpressionValue? Value, ExpressionFault? Fault);

/// <summary>What an expression means: its unit, and its value on a bike.</summary>
public static class ExpressionMeaning
{
    /// <summary>
    /// The unit of an expression, without any bike. A sum of unlike quantities and a division by a nought that stands in the
    /// text are faults on every bike, and told here.
    /// </summary>
    /// <returns>The dimension, or null; and the fault, or null.</returns>
    public static (UnitDimension? Dimension, ExpressionFault? Fault) DimensionOf(
        Expression expression
    )
    {
        ArgumentNullException.ThrowIfNull(expression);
        var result = Work(expression, null);
        return (result.Value?.Dimension, result.Fault);
    }

    /// <summary>The value of an expression on a bike.</summary>
    /// <param name="expression">The expression.</param>
    /// <param name="bike">What the bike's spec says.</param>
    public static ExpressionResult Evaluate(Expression expression, ISpecQuantities bike)
    {
        ArgumentNullException.ThrowIfNull(expression);
        ArgumentNullException.ThrowIfNull(bike);
        return Work(expression, bike);
    }

    // Without a bike every name stands for one of its unit; what depends on such a value is not judged.
    private static ExpressionResult Work(Expression expression, ISpecQuantities? bike) =>
        expression switch
        {
            NumberTerm number => OfNumber(number),
            NameTerm name => OfName(name, bike),
            NegatedTerm negated => OfOne(Work(negated.Negated, bike), number => -number),
            ArithmeticTerm arithmetic => OfTwo(
                Work(arithmetic.Left, bike),
                Work(arithmetic.Right, bike),
                (left, right) => OfArithmetic(arithmetic, left, right, bike)
            ),
            OperationTerm { Second: { } second } operation => OfTwo(
                Work(operation.First, bike),
                Work(second, bike),
                (first, other) => OfOperation(operation, first, other)
            ),
            OperationTerm { Operation: Operation.Abs } operation => OfOne(
                Work(operation.First, bike),
                Math.Abs
            ),
            OperationTerm operation => OfOne(
                Work(operation.First, bike),
                number => Math.Round(number, MidpointRounding.AwayFromZero)
            ),
            _ => throw new InvalidOperationException(expression.GetType().Name),
        };

    private static ExpressionResult OfNumber(NumberTerm number)
    {
        var unit = ExpressionUnit.Find(number.Unit);
        return Done(
            new((double)number.Value * (unit?.Factor ?? 1), unit?.Dimension ?? UnitDimension.Plain)
        );
    }

    private static ExpressionResult OfName(NameTerm term, ISpecQuantities? bike)
    {
        if (SpecNames.Find(term.Name) is not { } name)
        {
            return Failed(term, Texts.Get("expression.name", term.Name, SpecNames.Listed));
        }
        if (bike is null)
        {
            return Done(new(1, name.Dimension));
        }
        return bike.Find(term.Name) is { } value && double.IsFinite(value)
            ? Done(new(value, name.Dimension))
            : Failed(term, Texts.Get("expression.unknownOnBike", term.Name));
    }

    private static ExpressionResult OfOne(ExpressionResult inner, Func<double, double> change) =>
        inner.Value is { } value ? Done(value with { Number = change(value.Number) }) : inner;

    private static ExpressionResult OfTwo(
        ExpressionResult left,
        ExpressionResult right,
        Func<ExpressionValue, ExpressionValue, ExpressionResult> join
    ) =>
        left.Value is not { } l ? left
        : right.Value is not { } r ? right
        : join(l, r);

    private static ExpressionResult OfArithmetic(
        ArithmeticTerm term,
        ExpressionValue left,
        ExpressionValue right,
        ISpecQuantities? bike
    )
    {
        var isSum = term.Operation is Arithmetic.Add or Arithmetic.Subtract;
        if (isSum && left.Dimension != right.Dimension)
        {
            return Unlike(term, left, right);
        }
        if (term.Operation == Arithmetic.Divide && right.Number == 0)
        {
            return bike is null && term.Right.NeedsSpec
                ? Done(new(1, left.Dimension.Over(right.Dimension)))
                : Failed(term, Texts.Get("expression.byNought"));
        }
        var value = term.Operation switch
        {
            Arithmetic.Add => left with { Number = left.Number + right.Number },
            Arithmetic.Subtract => left with { Number = left.Number - right.Number },
            Arithmetic.Multiply => new(
                left.Number * right.Number,
                left.Dimension.Times(right.Dimension)
            ),
            _ => new ExpressionValue(
                left.Number / right.Number,
                left.Dimension.Over(right.Dimension)
            ),
        };
        return double.IsFinite(value.Number)
            ? Done(value)
            : Failed(term, Texts.Get("expression.tooGreat"));
    }

    private static ExpressionResult OfOperation(
        OperationTerm term,
        ExpressionValue first,
        ExpressionValue second
    ) =>
        first.Dimension != second.Dimension
            ? Unlike(term, first, second)
            : Done(
                first with
                {
                    Number =
                        term.Operation == Operation.Min
                            ? Math.Min(first.Number, second.Number)
                            : Math.Max(first.Number, second.Number),
                }
            );

    private static ExpressionResult Unlike(
        Expression term,
        ExpressionValue left,
        ExpressionValue right
    ) => Failed(term, Texts.Get("expression.unlike", left.Dimension, right.Dimension));

    private static ExpressionResult Done(ExpressionValue value) => new(value, null);

    private static ExpressionResult Failed(Expression term, string message) =>
        new(null, new(term.Column, message));
}
