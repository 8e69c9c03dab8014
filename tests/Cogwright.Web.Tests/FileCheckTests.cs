using System.Text;
using Cogwright.Files;
using Cogwright.Parts;
using Cogwright.Web.Bikes;
using Cogwright.Web.Specs;

namespace Cogwright.Web.Tests;

/// <summary>A file with each problem under its line.</summary>
public sealed class FileCheckTests
{
    [Fact]
    public void Of_AnErrorInALine_MarksItsColumn()
    {
        var check = FileCheck.Of("name: a\nrings: [42]\nframe:\n  class: rode\n", "bike.yaml");
        Assert.Null(check.Sheet);
        var line = check.Lines.Single(l => l.Line == 4);
        Assert.Equal("  class: rode", line.Text);
        Assert.Equal("         ^", line.Mark);
        Assert.Contains("rode", line.Message, StringComparison.Ordinal);
        Assert.True(line.IsError);
    }

    [Fact]
    public void Of_AnErrorFarAlongALine_ShowsThePartThatMatters()
    {
        var text =
            "{name: a, frame: {class: road-race}, hanger: {class: road}, rings: [50, 34], cogs: {teeth: 11-34}, rearDerailleur: {class: road-short}}";
        var line = FileCheck.Of(text, "bike.json").Lines.Single();
        Assert.StartsWith("…", line.Text, StringComparison.Ordinal);
        Assert.Equal("11-34", line.Text.Substring(line.Mark.Length - 1, 5));
    }

    [Fact]
    public void Of_AFileWithoutErrors_IsASheet()
    {
        var yaml = DemoWorkshop.Sheet("demo-touring-3x9-cable").ToYaml();
        var check = FileCheck.Of(Encoding.UTF8.GetBytes(yaml), "a.yaml");
        Assert.Equal("Alder touring 3×9", check.BikeName);
        Assert.Equal(yaml, check.Sheet!.ToYaml());
    }

    [Fact]
    public void Of_AFileThatNamesParts_LooksThemUpInTheLibrary()
    {
        var cassette = DemoParts.Library.Of(PartKind.Cassette)[0];
        var yaml = DemoWorkshop.Sheet("demo-touring-3x9-cable").Fit(cassette).ToYaml();
        Assert.Null(FileCheck.Of(yaml, "a.yaml").Sheet);

        var pasted = FileCheck.Of(yaml, "a.yaml", DemoParts.Library);
        var file = FileCheck.Of(Encoding.UTF8.GetBytes(yaml), "a.yaml", DemoParts.Library);

        Assert.Equal(cassette.Id, pasted.Sheet!["parts.cassette"]);
        Assert.Equal(yaml, file.Sheet!.ToYaml());
    }

    [Fact]
    public void Of_BytesThatAreNoText_SaysSo()
    {
        var check = FileCheck.Of([0x89, 0x50, 0x4E, 0x47, 0, 0, 0], "picture.png");
        Assert.Null(check.Sheet);
        Assert.NotEmpty(check.Lines);
    }

    [Theory]
    [InlineData("Hesby road 2×12", "hesby-road-2-12.yaml")]
    [InlineData("../etc/passwd", "etc-passwd.yaml")]
    [InlineData("???", "bike.yaml")]
    public void FileName_OfAnyName_IsOneThatEveryFileSystemTakes(string name, string file) =>
        Assert.Equal(file, Essentials.FileName(SpecSheet.Empty.With("name", name)));
}
