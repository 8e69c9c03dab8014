using Cogwright.Web.Bikes;

namespace Cogwright.Web.Tests;

public sealed class DemoWorkshopTests
{
    public static TheoryData<string> Bikes => [.. DemoWorkshop.Ids];

    [Theory]
    [MemberData(nameof(Bikes))]
    public void Name_OfADemoBike_IsItsSpecs(string id) =>
        Assert.Equal(DemoWorkshop.Sheet(id)["name"], DemoWorkshop.Name(id));
}
