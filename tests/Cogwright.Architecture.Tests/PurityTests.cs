namespace Cogwright.Architecture.Tests;

/// <summary>Holds the pure rooms to what a browser can run and a test can repeat.</summary>
public sealed class PurityTests
{
    [Theory]
    [MemberData(nameof(Room.PureNames), MemberType = typeof(Room))]
    public void PureRoom_TouchesNothingOutsideItself(string name) =>
        Assert.Empty(Purity.BrokenBy(UseScan.Of(Room.Named(name))));
}
