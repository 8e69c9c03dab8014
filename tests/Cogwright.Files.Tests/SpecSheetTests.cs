namespace Cogwright.Files.Tests;

public sealed class SpecSheetTests
{
    public static TheoryData<string> Demos => [.. Repository.DemoSpecs];

    [Theory]
    [MemberData(nameof(Demos))]
    public void ToYaml_OfEveryDemoSpec_ReadsBackToTheSameSpec(string file)
    {
        var text = Repository.Text("demo/specs/" + file);
        var spec = SpecReader.Read(text, file).Spec;
        var sheet = SpecSheet.Read(text, file).Sheet;
        Assert.NotNull(spec);
        Assert.NotNull(sheet);
        var back = sheet.Check();
        Assert.NotNull(back.Spec);
        Assert.Equal(SpecWriter.Write(spec), SpecWriter.Write(back.Spec));
    }
}
