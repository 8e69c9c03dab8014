using Cogwright.Files.Classes;
using Cogwright.Files.Fields;

namespace Cogwright.Files.Tests;

public sealed class ClassTests
{
    public static TheoryData<string, string> Derailleurs
    {
        get
        {
            var all = new TheoryData<string, string>();
            foreach (var derailleur in ClassLibrary.Names(ClassKind.RearDerailleur))
            {
                foreach (var cage in ClassLibrary.Names(ClassKind.Cage))
                {
                    all.Add(derailleur, cage);
                }
            }
            return all;
        }
    }

    [Theory]
    [MemberData(nameof(Derailleurs))]
    public void DerailleurAndCageClass_Alone_MakeACompleteSpec(string derailleur, string cage)
    {
        var text = $$"""
            name: classes only
            frame: {class: gravel}
            hanger: {class: road}
            rings: [40]
            cogs: {teeth: 11-13-15-17-19-21-23-25-28-32}
            rearDerailleur: {class: {{derailleur}}, cage: {class: {{cage}} } }
            """;

        Assert.Empty(SpecReader.Read(text, "bike.yaml").Problems);
    }

    [Fact]
    public void FrameAndHangerClasses_Alone_SupplyEverything()
    {
        foreach (var frame in ClassLibrary.Names(ClassKind.Frame))
        {
            foreach (var hanger in ClassLibrary.Names(ClassKind.Hanger))
            {
                var text = $$"""
                    name: classes only
                    frame: {class: {{frame}}}
                    hanger: {class: {{hanger}}}
                    rings: [40]
                    cogs: {teeth: 16}
                    """;
                Assert.Empty(SpecReader.Read(text, "bike.yaml").Problems);
            }
        }
    }

    [Fact]
    public void UnknownField_Far_ListsTheKnownOnes()
    {
        var problem = Assert.Single(
            SpecReader
                .Read(
                    Repository.Text("demo/specs/single-speed.yaml") + "colour: red\n",
                    "bike.yaml"
                )
                .Problems
        );

        Assert.Contains(
            "known are format, name, parts, frame",
            problem.Message,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("teeth", "teeth", 0)]
    [InlineData("tehte", "teeth", 2)]
    [InlineData("teteh", "teeth", 1)]
    [InlineData("", "abc", 3)]
    [InlineData("kitten", "sitting", 3)] // The textbook example of Levenshtein's distance.
    [InlineData("ca", "abc", 3)] // The textbook example that tells optimal string alignment from full Damerau.
    public void NearestName_Distance_CountsEdits(string a, string b, int edits) =>
        Assert.Equal(edits, NearestName.Distance(a, b));
}
