using Cogwright.Setup.Procedures.Expressions;
using CsCheck;

namespace Cogwright.Setup.Tests;

/// <summary>The language of targets: what is read, what it means, and what it refuses.</summary>
public sealed class ExpressionTests
{
    private const int Depth = 4;

    private static readonly SpecQuantities Bike = SpecQuantities.Of(
        Bikes.Catalogue(Bikes.Double),
        Bikes.CableDouble
    );

    /// <summary>Units and names of every kind: most sums of them are refused.</summary>
    private static readonly Gen<Expression> Leaf = LeafOf(
        ["", "mm", "°", "N·m", "pitches", "teeth", "%"],
        SpecNames.All
    );

    /// <summary>Lengths and bare numbers only: most sums of them have a value.</summary>
    private static readonly Gen<Expression> LikeLeaf = LeafOf(
        ["", "mm", "mm", "mm", "%"],
        SpecNames.All.Where(name => name.Dimension == UnitDimension.OfLength)
    );

    private static Gen<Expression> LeafOf(string[] units, IEnumerable<SpecName> names) =>
        Gen.OneOf(
            Gen.Select(
                Gen.Int[0, 99999],
                Gen.Int[0, 3],
                Gen.OneOf(units),
                (digits, decimals, unit) =>
                    (Expression)
                        new NumberTerm(new decimal(digits, 0, 0, false, (byte)decimals), unit, 1)
            ),
            Gen.OneOf(names.ToArray()).Select(name => (Expression)new NameTerm(name.Name, 1))
        );

    /// <summary>Any expression that the grammar allows over some leaves, sensible or not.</summary>
    private static Gen<Expression> Any(Gen<Expression> leaf, int depth = Depth)
    {
        if (depth == 0)
        {
            return leaf;
        }
        var inner = Any(leaf, depth - 1);
        return Gen.OneOf(
            leaf,
            inner.Select(negated => (Expression)new NegatedTerm(negated, 1)),
            Gen.Select(
                Gen.Enum<Arithmetic>(),
                inner,
                inner,
                (sign, left, right) => (Expression)new ArithmeticTerm(sign, left, right, 1)
            ),
            Gen.Select(
                Gen.OneOf(Operation.Min, Operation.Max),
                inner,
                inner,
                (name, first, second) => (Expression)new OperationTerm(name, first, second, 1)
            ),
            Gen.Select(
                Gen.OneOf(Operation.Round, Operation.Abs),
                inner,
                (name, first) => (Expression)new OperationTerm(name, first, null, 1)
            )
        );
    }

    private static Expression Parsed(string text)
    {
        var reading = ExpressionParser.Read(text);
        Assert.Null(reading.Fault);
        return reading.Expression!;
    }

    private static ExpressionFault FaultOf(string text)
    {
        var reading = ExpressionParser.Read(text);
        var fault = reading.Expression is { } expression
            ? ExpressionMeaning.Evaluate(expression, Bike).Fault
            : reading.Fault;
        return Assert.IsType<ExpressionFault>(fault);
    }

    /// <summary>The same tree with every column 1, as the generators make it.</summary>
    private static Expression WithoutColumns(Expression expression) =>
        expression switch
        {
            NumberTerm number => number with { Column = 1 },
            NameTerm name => name with { Column = 1 },
            NegatedTerm negated => new NegatedTerm(WithoutColumns(negated.Negated), 1),
            ArithmeticTerm term => new ArithmeticTerm(
                term.Operation,
                WithoutColumns(term.Left),
                WithoutColumns(term.Right),
                1
            ),
            OperationTerm term => new OperationTerm(
                term.Operation,
                WithoutColumns(term.First),
                term.Second is null ? null : WithoutColumns(term.Second),
                1
            ),
            _ => throw new InvalidOperationException(),
        };

    [Fact]
    public void Expression_PrintedAndRead_IsTheSame() =>
        Any(Leaf)
            .Where(expression => expression.Print().Length <= ExpressionParser.LongestText)
            .Sample(expression =>
                Assert.Equal(expression, WithoutColumns(Parsed(expression.Print())))
            );

    /// <summary>Whatever the letters, an answer comes back, and a fault's column lies in or just behind the text.</summary>
    [Fact]
    public void AnyText_Read_IsAnExpressionOrAFaultWithItsColumn() =>
        Gen.Char["0123456789.,+-*/() abdegimnortux°·%#\u00a0"]
            .Array[0, 30]
            .Select(letters => new string(letters))
            .Sample(text =>
            {
                var (expression, fault) = ExpressionParser.Read(text);
                Assert.NotEqual(expression is null, fault is null);
                if (fault is not null)
                {
                    Assert.InRange(fault.Column, 1, text.Length + 1);
                    Assert.NotEmpty(fault.Message);
                }
            });

    /// <summary>The naive twin: plain double arithmetic, the unit carried as a row of powers and checked at each sum.</summary>
    private static (double Value, int[] Powers)? Twin(Expression expression)
    {
        switch (expression)
        {
            case NumberTerm { Unit: "%" } percent:
                return ((double)percent.Value * 0.01, new int[5]);
            case NumberTerm number:
                return ((double)number.Value, One(number.Unit));
            case NameTerm name:
                return Bike.Find(name.Name) is { } known
                    ? (known, One(SpecNames.Find(name.Name)!.Dimension.ToString()))
                    : null;
            case NegatedTerm negated:
                return Twin(negated.Negated) is { } inner ? (-inner.Value, inner.Powers) : null;
            case OperationTerm { Second: null } term:
                return Twin(term.First) is not { } only ? null
                    : term.Operation == Operation.Abs ? (Math.Abs(only.Value), only.Powers)
                    : (Math.Sign(only.Value) * Math.Floor(Math.Abs(only.Value) + 0.5), only.Powers);
        }
        var (left, right) = expression is ArithmeticTerm sum
            ? (Twin(sum.Left), Twin(sum.Right))
            : (Twin(((OperationTerm)expression).First), Twin(((OperationTerm)expression).Second!));
        if (left is not { } l || right is not { } r)
        {
            return null;
        }
        var sign = (expression as ArithmeticTerm)?.Operation;
        if (sign is Arithmetic.Multiply or Arithmetic.Divide)
        {
            var up = sign == Arithmetic.Multiply ? 1 : -1;
            var powers = l.Powers.Zip(r.Powers, (a, b) => a + (up * b)).ToArray();
            return up > 0 ? (l.Value * r.Value, powers)
                : r.Value == 0 ? null
                : (l.Value / r.Value, powers);
        }
        if (!l.Powers.SequenceEqual(r.Powers))
        {
            return null;
        }
        return (
            sign switch
            {
                Arithmetic.Add => l.Value + r.Value,
                Arithmetic.Subtract => l.Value - r.Value,
                _ => ((OperationTerm)expression).Operation == Operation.Min
                    ? Math.Min(l.Value, r.Value)
                    : Math.Max(l.Value, r.Value),
            },
            l.Powers
        );
    }

    private static int[] One(string unit)
    {
        var powers = new int[5];
        var at = Array.IndexOf(["mm", "°", "N·m", "pitches", "teeth"], unit);
        if (at >= 0)
        {
            powers[at] = 1;
        }
        return powers;
    }

    [Fact]
    public void Expression_Evaluated_AgreesWithTheNaiveTwin() =>
        Gen.OneOf(Any(Leaf, 2), Any(LikeLeaf))
            .Sample(expression =>
            {
                var result = ExpressionMeaning.Evaluate(expression, Bike);
                if (Twin(expression) is not { } twin || !double.IsFinite(twin.Value))
                {
                    Assert.NotNull(result.Fault);
                    return;
                }
                Assert.Null(result.Fault);
                var value = result.Value!.Value;
                Assert.Equal(twin.Value, value.Number, 1e-9 * Math.Max(1, Math.Abs(twin.Value)));
                Assert.Equal(
                    twin.Powers,
                    new int[]
                    {
                        value.Dimension.Length,
                        value.Dimension.Angle,
                        value.Dimension.Torque,
                        value.Dimension.Pitches,
                        value.Dimension.Teeth,
                    }
                );
            });

    /// <summary>What has a value on a bike has the same unit without one: the lint judges before any bike is known.</summary>
    [Fact]
    public void Dimension_WithoutABike_IsThatOfTheValueOnOne() =>
        Gen.OneOf(Any(Leaf, 2), Any(LikeLeaf))
            .Sample(expression =>
            {
                if (ExpressionMeaning.Evaluate(expression, Bike).Value is { } value)
                {
                    Assert.Equal(
                        value.Dimension,
                        ExpressionMeaning.DimensionOf(expression).Dimension
                    );
                }
            });

    [Theory]
    [InlineData("largestRing", 50)]
    [InlineData("smallestRing", 34)]
    [InlineData("largestCog", 34)]
    [InlineData("smallestCog", 11)]
    [InlineData("cogCount", 12)]
    [InlineData("chainPitches", 110)]
    [InlineData("gapTarget", 7)]
    [InlineData("gapLeast", 6.5)]
    [InlineData("gapMost", 7.5)]
    [InlineData("(largestRing + largestCog) / 4 teeth * 1 pitches", 21)]
    [InlineData("1 - 2 - 3", -4)]
    [InlineData("8 / 4 / 2", 1)]
    [InlineData("2 + 3 * 4", 14)]
    [InlineData("-(2 + 3) * 4", -20)]
    [InlineData("round(2.5 mm)", 3)]
    [InlineData("round(-2.5 mm)", -3)]
    [InlineData("abs(3 deg - 5°)", 2)]
    [InlineData("min(5 Nm, 4 N·m)", 4)]
    [InlineData("max(1 tooth, 2 teeth)", 2)]
    [InlineData("30 % * 150 mm", 45)]
    public void Expression_OnTheWorkedExample_HasItsValue(string text, double value) =>
        Assert.Equal(
            value,
            ExpressionMeaning.Evaluate(Parsed(text), Bike).Value!.Value.Number,
            1e-9
        );

    [Theory]
    [InlineData("1 / 0", 3, "nought")]
    [InlineData("1 mm / (largestCog - largestCog)", 6, "nought")]
    [InlineData("5 mm + 3 deg", 6, "mm and one in °")]
    [InlineData("chainPitches - largestRing", 14, "pitches and one in teeth")]
    [InlineData("min(1 mm, 1 °)", 1, "mm and one in °")]
    [InlineData("2 * bigRing", 5, "largestRing")]
    [InlineData("sqrt(2)", 1, "min(a, b)")]
    [InlineData("3 furlong", 3, "N·m")]
    [InlineData("3 mm mm", 6, "+, -, * or /")]
    [InlineData("7,5 mm", 2, "point")]
    [InlineData("(1 mm", 6, ")")]
    [InlineData("min(1 mm)", 9, ",")]
    [InlineData("1 +", 4, "ends")]
    [InlineData("", 1, "ends")]
    [InlineData("1.2.3 mm", 1, "1.2.3")]
    [InlineData("1234567890123456", 1, "15 digits")]
    [InlineData("$(rm)", 1, "$")]
    [InlineData("System.IO", 1, "no quantity")]
    [InlineData("sag", 1, "spec says nothing")]
    public void BadExpression_Always_NamesColumnAndWhatToDo(string text, int column, string says)
    {
        var fault = FaultOf(text);

        Assert.Equal(column, fault.Column);
        Assert.Contains(says, fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void DivisionByNought_ThatStandsInTheText_IsToldWithoutABike()
    {
        Assert.NotNull(ExpressionMeaning.DimensionOf(Parsed("1 mm / (2 - 2)")).Fault);
        Assert.Null(
            ExpressionMeaning.DimensionOf(Parsed("1 mm / (largestRing - largestRing)")).Fault
        );
    }

    [Fact]
    public void LongestNesting_Read_EndsInTime()
    {
        var nested = new string('-', ExpressionParser.LongestText - 1) + "1";

        Assert.NotNull(ExpressionMeaning.Evaluate(Parsed(nested), Bike).Value);
        Assert.Equal(
            ExpressionParser.LongestText + 1,
            FaultOf(new string('(', ExpressionParser.LongestText + 1)).Column
        );
        Assert.NotNull(ExpressionParser.Read(new string('(', ExpressionParser.LongestText)).Fault);
    }

    [Fact]
    public void EveryName_OnSomeBike_HasAValue()
    {
        var bikes = Bikes
            .All.Select(bike => SpecQuantities.Of(Bikes.Catalogue(bike.Spec), bike.Work))
            .ToArray();

        Assert.All(
            SpecNames.All,
            name => Assert.Contains(bikes, bike => bike.Find(name.Name) is not null)
        );
        Assert.All(bikes, bike => Assert.Null(bike.Find("nothing")));
    }
}
