using Cogwright.Web.Quick;
using CsCheck;

namespace Cogwright.Web.Tests;

public sealed class CogFillTests
{
    [Fact]
    public void Between_AnyEnds_KeepsThemAndGrowsByWholeTeeth() =>
        Gen.Select(Gen.Int[9, 20], Gen.Int[2, 13], Gen.Int[0, 40])
            .Sample(
                (smallest, count, more) =>
                {
                    var largest = smallest + count - 1 + more;
                    var cogs = CogFill.Between(smallest, largest, count);
                    Assert.Equal(count, cogs.Length);
                    Assert.Equal(smallest, cogs[0]);
                    Assert.Equal(largest, cogs[^1]);
                    Assert.All(
                        cogs.Zip(cogs.Skip(1)),
                        pair => Assert.True(pair.Second > pair.First)
                    );
                }
            );

    [Fact]
    public void Between_11To34With12_LooksLikeACassette() =>
        Assert.Equal([11, 12, 14, 15, 17, 18, 20, 23, 25, 28, 31, 34], CogFill.Between(11, 34, 12));
}
