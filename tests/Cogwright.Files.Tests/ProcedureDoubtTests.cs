using System.Collections.Immutable;
using Cogwright.Setup;
using Cogwright.Setup.Jobs;

namespace Cogwright.Files.Tests;

/// <summary>Whether a procedure is meant for a bike, for the demo workshop's.</summary>
public sealed class ProcedureDoubtTests
{
    public static IEnumerable<TheoryDataRow<string, string>> Meant =>
        DemoProcedures.Bikes.SelectMany(pair =>
            pair.Value.Select(bike => new TheoryDataRow<string, string>(pair.Key, bike))
        );

    [Theory]
    [MemberData(nameof(Meant))]
    public void Of_ProcedureForThisBike_HasNoDoubt(string procedure, string bike) =>
        Assert.Empty(Of(procedure, bike));

    [Theory]
    [InlineData("wireless-2x12-installation", "touring-3x9-cable", "motor")]
    [InlineData("wireless-2x12-installation", "trail-1x12", "front derailleur")]
    [InlineData("cable-3x9-set-up", "road-2x12-wireless", "cable")]
    [InlineData("wheel-swap-cable", "trail-1x12", "cable")]
    [InlineData("wheel-swap-motor", "gravel-1x13", "motor")]
    public void Of_ProcedureForAnother_SaysWhatIsOtherwise(
        string procedure,
        string bike,
        string word
    ) =>
        Assert.Contains(
            Of(procedure, bike),
            doubt => doubt.Contains(word, StringComparison.Ordinal)
        );

    private static ImmutableArray<string> Of(string procedure, string bike)
    {
        var (catalogue, work) = DemoProcedures.Bike(bike);
        return ProcedureDoubts.Of(
            DemoProcedures.Of(procedure),
            work,
            new(catalogue, work, TargetList.Make(catalogue, work))
        );
    }
}
