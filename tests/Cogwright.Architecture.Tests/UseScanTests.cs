using Cogwright.Drivetrain;

namespace Cogwright.Architecture.Tests;

/// <summary>The scan is worth what it catches: these tests run it over code that breaks the rules.</summary>
public sealed class UseScanTests
{
    public static TheoryData<string> ImpureMembers =>
        [
            .. typeof(ImpureOffender)
                .GetMethods()
                .Where(method => method.DeclaringType == typeof(ImpureOffender))
                .Select(method => method.Name),
        ];

    [Theory]
    [MemberData(nameof(ImpureMembers))]
    public void Scan_ImpureMember_IsCaught(string member)
    {
        var caught = Purity.BrokenBy(UseScan.Of(typeof(ImpureOffender)));

        Assert.Contains(caught, use => use.Place.Contains(member, StringComparison.Ordinal));
    }

    [Fact]
    public void Scan_PureNeighbour_IsLeftAlone()
    {
        var uses = UseScan.Of(typeof(PureNeighbour));

        Assert.Contains(uses, use => use.ToType == "System.IO.StreamReader");
        Assert.Empty(Purity.BrokenBy(uses));
    }

    [Fact]
    public void Scan_GeneratedExpressions_AreLeftAlone()
    {
        // This assembly has some of its own, in Names and in SourceTests.
        var uses = typeof(Names)
            .Assembly.GetTypes()
            .Where(type => type.Namespace == Purity.GeneratedExpressions && !type.IsNested)
            .SelectMany(UseScan.Of)
            .ToList();

        Assert.Contains(uses, use => use.ToType == "System.AppContext");
        Assert.Empty(Purity.BrokenBy(uses));
    }

    [Theory]
    [InlineData("InField")]
    [InlineData(nameof(ArrowOffender.InParameter))]
    [InlineData(nameof(ArrowOffender.InBody))]
    [InlineData(nameof(ArrowOffender.InTypeArgument))]
    [InlineData(nameof(ArrowOffender.InLambda))]
    public void Scan_TypeOfAnotherRoom_IsFound(string place)
    {
        var uses = UseScan.Of(typeof(ArrowOffender));

        Assert.Contains(
            uses,
            use =>
                use.ToType == typeof(Point).FullName
                && use.ToAssembly == "Cogwright.Drivetrain"
                && use.Place.Contains(place, StringComparison.Ordinal)
        );
    }
}
