using CsCheck;

namespace Cogwright.Files.Tests;

public sealed class SpecSheetTests
{
    public static TheoryData<string> Demos => [.. Repository.DemoSpecs];

    [Theory]
    [MemberData(nameof(Demos))]
    public void ToYaml_OfEveryDemoSpec_ReadsBackToTheSameSpec(string file)
    {
        var text = Repository.Text("demo/specs/" + file);
        var spec = SpecReader.Read(text, file, DemoParts.Library).Spec;
        var sheet = SpecSheet.Read(text, file).Sheet;
        Assert.NotNull(spec);
        Assert.NotNull(sheet);
        var back = sheet.Check(DemoParts.Library);
        Assert.NotNull(back.Spec);
        Assert.Equal(SpecWriter.Write(spec), SpecWriter.Write(back.Spec));
    }

    [Theory]
    [InlineData("null")]
    [InlineData("~")]
    [InlineData("true")]
    [InlineData("[Blue]")]
    [InlineData("-2: x")]
    [InlineData("- x")]
    [InlineData("a #1")]
    [InlineData("#1")]
    [InlineData("key: value")]
    [InlineData("\\ \"quoted\"")]
    [InlineData("*anchor")]
    [InlineData("...")]
    [InlineData("---")]
    [InlineData("1e3")]
    [InlineData("{a: b}")]
    [InlineData("Väterchen’s 29\"")]
    public void ToYaml_OfANameThatLooksLikeYaml_ReadsBackTheSame(string name) =>
        AssertReadsBack(SpecSheet.Empty.With("name", name).With("frame.chainstay", "410"));

    [Fact]
    public void ToYaml_OfAListWhereOneFigureBelongs_ReadsBackTheSame() =>
        AssertReadsBack(
            SpecSheet.Empty.With("rings[0].teeth", "[0ü]").With("rings[1].lateral", ">#")
        );

    [Fact]
    public void ToYaml_OfAnyTexts_ReadsBackTheSame()
    {
        // Few letters and many signs, so that what means something to YAML comes up often.
        const string signs = ":-#'\"[]{},&*!|>%@`?~\\ .0aZ\t\u2028\u00a0ü";
        var sign = Gen.Int[0, signs.Length - 1].Select(index => signs[index]);
        var text = Gen.OneOf(Gen.String[sign, 1, 12], Gen.String[1, 12]);
        string[] paths =
        [
            "name",
            "frame.chainstay",
            "rings[0].teeth",
            "rings[1].lateral",
            "work.actuation",
            "chain.pitches",
            "strange",
            "frame.strange",
        ];
        var path = Gen.Int[0, paths.Length - 1].Select(index => paths[index]);
        Gen.Select(path, text)
            .List[1, 6]
            .Sample(fields =>
                AssertReadsBack(
                    fields.Aggregate(
                        SpecSheet.Empty,
                        (sheet, field) => sheet.With(field.Item1, field.Item2)
                    )
                )
            );
    }

    [Fact]
    public void With_ATextThatNoFileCanHold_HoldsBlanksInItsPlace() =>
        Assert.Equal("a b", SpecSheet.Empty.With("name", "a\u2028b\n")["name"]);

    [Theory]
    [InlineData("rings[0].teeth")]
    [InlineData("rings[1].teeth")]
    public void Emptied_TheOnlyFieldOfARing_IsAnErrorAtItAndNoOtherRingMoves(string path)
    {
        var sheet = Demo().Emptied(path);
        Assert.Equal(2, sheet.CountOf("rings"));
        foreach (var one in (SpecSheet[])[sheet, SpecSheet.Read(sheet.ToYaml(), "saved").Sheet!])
        {
            var reading = one.Check(DemoParts.Library);
            Assert.Null(reading.Spec);
            var field = SheetFields.Of(one).Find(path)!;
            Assert.Null(field.Text);
            Assert.Contains(reading.Problems, problem => problem.IsError && field.IsMeant(problem));
            Assert.Equal(2, one.CountOf("rings"));
        }
        Assert.Equal(1, sheet.Without("rings", path[6] - '0').CountOf("rings"));
    }

    [Fact]
    public void Check_OfAListWithAGap_AsksForTheMissingEntry()
    {
        // Two devices may have changed a list without having seen one another.
        var sheet = Demo().With("rings[0].teeth", null);
        var problem = Assert.Single(sheet.Check(DemoParts.Library).Problems, one => one.IsError);
        Assert.Equal("rings[0].teeth", problem.Field);
    }

    private static SpecSheet Demo() =>
        SpecSheet.Read(Repository.Text("demo/specs/road-2x12-wireless.yaml"), "demo").Sheet!;

    private static void AssertReadsBack(SpecSheet sheet)
    {
        var back = SpecSheet.Read(sheet.ToYaml(), "back").Sheet;
        if (sheet.Values.Count == 0)
        {
            return;
        }
        Assert.NotNull(back);
        // Where a list has a gap, the file says so.
        Assert.Equal(
            sheet.Values.Where(value => value.Value.Length > 0),
            back.Values.Where(value => value.Value.Length > 0)
        );
    }
}
