namespace Cogwright.Drivetrain.Tests;

/// <summary>Turns as a mechanic writes them.</summary>
public sealed class TurnAmountTests
{
    [Theory]
    [InlineData(0.25, "¼")]
    [InlineData(-0.75, "¾")]
    [InlineData(1.5, "1½")]
    [InlineData(-2, "2")]
    [InlineData(0.1, "0.1")]
    [InlineData(0, "0")]
    public void Amount_OfTurns_IsInQuartersWhereItCan(double turns, string written) =>
        Assert.Equal(written, TurnAmount.Of(turns));
}
