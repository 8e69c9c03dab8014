namespace Cogwright.Fastening.Tests;

public sealed class TorqueFigureTests
{
    private static readonly TorqueRange Part = new(6, 7);
    private static readonly TorqueRange Trade = new(8, 10);

    [Fact]
    public void Figure_OfThePart_WinsOverAllAndIsMarked()
    {
        var figure = TorqueFigure.Of(Part, new(6.5, 9), Trade);
        Assert.Equal((Part, TorqueSource.Part), (figure.Range, figure.Source));
        Assert.Null(figure.Conflict);
    }

    [Fact]
    public void Figure_OfTheProcedure_WinsOverTheTradesOnly()
    {
        Assert.Equal(TorqueSource.Procedure, TorqueFigure.Of(null, Part, Trade).Source);
        Assert.Equal(TorqueSource.TradeRange, TorqueFigure.Of(null, null, Trade).Source);
        Assert.Equal(TorqueSource.None, TorqueFigure.Of(null).Source);
    }

    [Fact]
    public void Figure_PartAndProcedureApart_AreToldWithBothFigures()
    {
        var conflict = TorqueFigure.Of(Part, new(9, 11), Trade).Conflict!;
        Assert.Contains("6 to 7", conflict, StringComparison.Ordinal);
        Assert.Contains("9 to 11", conflict, StringComparison.Ordinal);
        // The trade's range is a habit; the part may leave it.
        Assert.Null(TorqueFigure.Of(Part, null, Trade).Conflict);
    }

    [Theory]
    [InlineData(7, 6)]
    [InlineData(0, 6)]
    [InlineData(double.NaN, 6)]
    [InlineData(5, double.NaN)]
    [InlineData(5, 501)]
    public void Range_ThatCannotBe_IsRefusedInWords(double lower, double upper)
    {
        var error = Assert.Throws<ArgumentException>(() => new TorqueRange(lower, upper));
        Assert.Contains("N·m", error.Message, StringComparison.Ordinal);
    }
}
