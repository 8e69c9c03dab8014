using System.Text;
using Cogwright.Fastening;
using Cogwright.Files.Fields;
using Json.Schema;

namespace Cogwright.Files.Tests;

/// <summary>Files of torque tools: what they say, and the exact place of what they cannot say.</summary>
public sealed class TorqueToolsTests
{
    private const string Demo = "demo/tools/torque-tools.yaml";

    [Fact]
    public void Schema_Stored_IsTheGenerated() =>
        Stored.AssertEqual("schemas/torque-tools.schema.json", TorqueToolsSchema.ToJson());

    [Fact]
    public void Guide_Table_IsThatOfTheFieldTable()
    {
        const string guide = "docs/how-to/torque-tools-file.md";
        var text = Repository.Text(guide);
        var begin =
            text.IndexOf(GuideTests.Begin, StringComparison.Ordinal) + GuideTests.Begin.Length;
        var end = text.IndexOf(GuideTests.End, StringComparison.Ordinal);
        var table = new StringBuilder("\n");
        GuideTests.Table(table, TorqueToolFields.Tools);

        Stored.AssertEqual(guide, text[..begin] + table.Append('\n') + text[end..]);
    }

    [Fact]
    public void DemoTools_AgainstSchema_AreValid() =>
        Assert.True(
            SchemaTests.IsValid(
                JsonSchema.FromText(TorqueToolsSchema.ToJson()),
                Repository.Text(Demo)
            )
        );

    /// <summary>The file of the first format stays readable for ever, with the same figures.</summary>
    [Theory]
    [InlineData(Demo)]
    [InlineData("testdata/formats/v1/torque-tools.yaml")]
    public void Tools_Read_HaveTheirFigures(string file)
    {
        var reading = TorqueToolsReader.Read(Repository.Text(file), "torque-tools.yaml");
        // The one without a certificate is remarked.
        var remark = Assert.Single(reading.Problems);
        Assert.False(remark.IsError);
        Assert.Contains("T5", remark.Message, StringComparison.Ordinal);

        var tools = reading.Tools!.Value;
        Assert.Equal(5, tools.Length);
        var first = tools[0];
        Assert.Equal(
            ("T1 click wrench", "IIA", 2.0, 15.0, 0.25, 185.0, true),
            (
                first.Name,
                first.Class.Id,
                first.MinNm,
                first.MaxNm,
                first.GraduationNm,
                first.ArmMm,
                first.WorksLeftHand
            )
        );
        Assert.Equal(0.028, first.CertifiedDeviation!.Value, 1e-15);
        Assert.Equal(new(new(2026, 9, 14), UsesSince: 812), first.Calibration);
        Assert.False(tools[2].WorksLeftHand);
        Assert.Equal(400 * 0.1129848, tools[4].MaxNm, 1e-4);
        Assert.Same(TorqueUnit.PoundForceInch, tools[4].Unit);
        Assert.Same(TorqueUnit.NewtonMetre, tools[0].Unit);
        Assert.Null(tools[4].Calibration.On);
    }

    [Theory]
    [InlineData("max: 15", "max: -15", "max", 4, 10)]
    [InlineData("max: 15", "max: 15 furlong", "max", 4, 10)]
    [InlineData("max: 15", "min: 3", "max", 2, 5)]
    [InlineData("class: IIA", "class: IIX", "class", 3, 12)]
    [InlineData("class: IIA", "class: IID\n    arm: 100", "arm", 4, 10)]
    [InlineData("class: IIA", "class: IIA\n    min: 16", "min", 4, 10)]
    [InlineData("class: IIA", "class: IIA\n    graduation: 9", "graduation", 4, 17)]
    [InlineData("class: IIA", "class: IIA\n    deviation: 4", "deviation", 4, 16)]
    [InlineData("class: IIA", "class: IIA\n    arm: 2 mm", "arm", 4, 10)]
    [InlineData("on: 2026-03-02", "on: 2026-02-30", "calibration.on", 6, 11)]
    [InlineData("on: 2026-03-02", "on: 2.3.2026", "calibration.on", 6, 11)]
    [InlineData("on: 2026-03-02", "on: 2026-03-02\n      months: 0", "calibration.months", 7, 15)]
    [InlineData("on: 2026-03-02", "months: 12", "calibration.on", 5, 5)]
    [InlineData("class: IIA", "class: IIA\n    graduatin: 1", "graduatin", 4, 5)]
    public void BadTool_Read_TellsFieldAndPlace(
        string good,
        string bad,
        string field,
        int line,
        int column
    )
    {
        const string text = """
            torqueTools:
              - name: A
                class: IIA
                max: 15
                calibration:
                  on: 2026-03-02
            """;
        Assert.Empty(TorqueToolsReader.Read(text, "tools.yaml").Problems);
        var changed = text.Replace(good, bad, StringComparison.Ordinal);

        var reading = TorqueToolsReader.Read(changed, "tools.yaml");

        Assert.Null(reading.Tools);
        var problem = reading.Problems.First(each => each.IsError);
        Assert.Equal($"torqueTools[0].{field}", problem.Field);
        Assert.Equal((line, column), (problem.Line, problem.Column));
        Assert.NotEmpty(problem.Message);
    }

    [Fact]
    public void ToolsOfOneName_Read_AreAnError()
    {
        var reading = TorqueToolsReader.Read(
            "torqueTools:\n  - {name: A, class: IB, max: 5}\n  - {name: A, class: IB, max: 9}\n",
            "tools.yaml"
        );
        var error = Assert.Single(reading.Problems, each => each.IsError);
        Assert.Equal((3, 12), (error.Line, error.Column));
    }

    [Fact]
    public void NoTools_Read_IsAnEmptyList() =>
        Assert.Empty(TorqueToolsReader.Read("torqueTools: []\n", "t.yaml").Tools!.Value);
}
