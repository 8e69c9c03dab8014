using Cogwright.Files.Fields;
using Cogwright.Setup.Procedures;
using Cogwright.Setup.Procedures.Expressions;
using Json.Schema;

namespace Cogwright.Files.Tests;

/// <summary>Procedure files: what is read, what is told where, and the demo workshop's own.</summary>
public sealed class ProcedureReaderTests
{
    private const string Guide = "docs/how-to/procedure-file.md";

    private static readonly string Good = Repository.Text("testdata/cases/procedures/good.yaml");

    private static readonly JsonSchema Schema = JsonSchema.FromText(
        ProcedureSchema
            .ToJson()
            .Replace("cogwright:procedure", "cogwright:procedure-tests", StringComparison.Ordinal)
    );

    public static TheoryData<string> Demos =>
        [
            .. Directory
                .EnumerateFiles(Repository.PathOf("demo/procedures"), "*.yaml")
                .Select(f => Path.GetFileName(f)!)
                .Order(StringComparer.Ordinal),
        ];

    [Fact]
    public void GoodFile_Read_HoldsEveryField()
    {
        var procedure = ProcedureReader.Read(Good, "good.yaml").Procedure!;

        Assert.Equal("Set the gap", procedure.Title);
        Assert.Equal("Can read a caliper.", procedure.Skill);
        Assert.Equal(["caliper", "wrench"], procedure.Tools.Select(tool => tool.Id));
        Assert.Equal([new ProcedureItem("grease", "Assembly grease")], procedure.Supplies);
        Assert.Equal(["bike-held", "chain-on", "wheel-seated"], procedure.StartsWith);
        Assert.Equal(["gap"], procedure.HandsOver);
        Assert.Equal(8, procedure.Steps.Length);
        var torque = procedure.Steps[1].Torque!;
        Assert.Equal(
            ("rearMount", "8 N·m", "rearMount.most", "setting-wrench", "greased"),
            (
                torque.Fastener,
                torque.Least!.Print(),
                torque.Most!.Print(),
                torque.ToolClass,
                torque.Thread
            )
        );
        var prove = procedure.Steps[4];
        Assert.Equal(
            [(SignalWord.Warning, Harm.Serious), (SignalWord.Notice, Harm.Property)],
            prove.Hazards.Select(hazard => (hazard.Signal, hazard.Harm))
        );
        Assert.False(prove.HazardsBehindAction);
        Assert.Equal(StepState.Final, prove.State);
        Assert.Equal(["rough"], prove.DependsOn.Steps);
        Assert.Equal(["hanger"], prove.DependsOn.Readings);
        Assert.Equal(["inboard-stop-proven-by-hand"], prove.Makes);
        Assert.Equal(["turn-cranks", "powered-shift-to-largest-cog"], procedure.Steps[5].Acts);
        Assert.Equal(procedure.Steps[5].Acts, procedure.Steps[5].Hazards.Select(h => h.Act!));
        var gap = procedure.Steps[6].Check!;
        Assert.Equal(new NameTerm("largestCog", 1), gap.Cog);
        Assert.Equal("0.5 mm", gap.Tolerance!.Print());
        Assert.Equal("gap", gap.Result);
    }

    [Theory]
    [InlineData("target: gapTarget", "target: gapTarget + 1", 94, 25, "mm and one in no unit")]
    [InlineData("target: gapTarget", "target: gapTargt", 94, 15, "gapTarget")]
    [InlineData("target: gapTarget", "target: \"7 mm / (1 - 1)\"", 94, 21, "nought")]
    [InlineData("target: gapTarget", "target: 7,5 mm", 94, 16, "point")]
    [InlineData("makes: [hanger-read]", "makes: [hanger-raed]", 36, 13, "hanger-read")]
    [InlineData("signal: notice", "signal: note", 49, 17, "notice")]
    [InlineData("    state: rough", "    sate: rough", 32, 5, "state")]
    [InlineData("fastener: rearMount", "fastener: stem", 22, 17, "rearMount")]
    [InlineData("    note: Read", "    timerMinutes: 0\n    note: Read", 97, 19, "above 0")]
    public void BadField_Read_IsToldWithItsPlace(
        string old,
        string with,
        int line,
        int column,
        string says
    )
    {
        var reading = ProcedureReader.Read(
            Good.Replace(old, with, StringComparison.Ordinal),
            "bad.yaml"
        );

        Assert.Null(reading.Procedure);
        Assert.Empty(reading.Lint());
        var problem = Assert.Single(reading.Problems);
        Assert.Equal((line, column), (problem.Line, problem.Column));
        Assert.Contains(says, problem.Message, StringComparison.Ordinal);
        Assert.StartsWith("steps[", problem.Field, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("title: Nothing to do\nsteps: []\n")]
    [InlineData("title: Nothing to do\n")]
    [InlineData("steps: 7\n")]
    [InlineData("")]
    [InlineData("- a\n- b\n")]
    [InlineData("title: [\n")]
    public void FileWithoutProcedure_Read_IsAnErrorAndNothingThrown(string text)
    {
        var reading = ProcedureReader.Read(text, "bad.yaml");

        Assert.Null(reading.Procedure);
        Assert.Contains(reading.Problems, problem => problem.IsError);
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void DemoProcedure_Read_BreaksNoRule(string name)
    {
        var reading = ProcedureReader.Read(Repository.Text("demo/procedures/" + name), name);

        Assert.Empty(reading.Problems);
        Assert.Empty(reading.Lint());
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void DemoProcedure_AgainstSchema_IsValid(string name) =>
        Assert.True(SchemaTests.IsValid(Schema, Repository.Text("demo/procedures/" + name)));

    [Theory]
    [InlineData("    state: rough", "    state: nearly")]
    [InlineData("    part: hanger", "    part: saddle")]
    [InlineData("title: Set the gap", "name: Set the gap")]
    public void BadFile_AgainstSchemaAndReader_FailsInBoth(string old, string with)
    {
        var text = Good.Replace(old, with, StringComparison.Ordinal);

        Assert.False(SchemaTests.IsValid(Schema, text));
        Assert.Null(ProcedureReader.Read(text, "bad.yaml").Procedure);
    }

    [Fact]
    public void EveryDemoProcedure_HasTheBikesThatItIsFor() =>
        Assert.Equal(DemoProcedures.Names, DemoProcedures.Bikes.Keys.Order(StringComparer.Ordinal));

    public static TheoryData<string, string> OnBikes =>
        [.. DemoProcedures.Bikes.SelectMany(each => each.Value.Select(bike => (each.Key, bike)))];

    /// <summary>A procedure written for a kind of bike has a figure wherever it asks for one.</summary>
    [Theory]
    [MemberData(nameof(OnBikes))]
    public void DemoProcedure_OnItsBike_HasEveryFigure(string name, string bike)
    {
        var procedure = DemoProcedures.Of(name);
        var (catalogue, work) = DemoProcedures.Bike(bike);
        var quantities = SpecQuantities.Of(catalogue, work);
        var figures = procedure
            .Steps.SelectMany(step =>
                new[]
                {
                    step.Torque?.Least,
                    step.Torque?.Most,
                    step.Check?.Ring,
                    step.Check?.Cog,
                    step.Check?.Target,
                    step.Check?.Tolerance,
                    step.Check?.Least,
                    step.Check?.Most,
                }
            )
            .OfType<Expression>()
            .ToArray();

        Assert.NotEmpty(figures);
        Assert.All(
            figures,
            figure => Assert.Null(ExpressionMeaning.Evaluate(figure, quantities).Fault)
        );
    }

    [Fact]
    public void ProcedureSchema_Stored_IsTheGenerated() =>
        Stored.AssertEqual("schemas/procedure.schema.json", ProcedureSchema.ToJson());

    [Fact]
    public void Guide_Tables_AreThoseOfTheFieldTable()
    {
        var text = Repository.Text(Guide);
        var begin = text.IndexOf(GuideTests.Begin, StringComparison.Ordinal);
        var end = text.IndexOf(GuideTests.End, StringComparison.Ordinal);

        Stored.AssertEqual(
            Guide,
            text[..(begin + GuideTests.Begin.Length)] + ProcedureTables.Make() + text[end..]
        );
    }

    [Fact]
    public void Guide_Example_BreaksNoRule()
    {
        const string Fence = "```yaml\n";
        var text = Repository.Text(Guide);
        var begin = text.IndexOf(Fence, StringComparison.Ordinal) + Fence.Length;
        var example = text[begin..text.IndexOf("```", begin, StringComparison.Ordinal)];
        var reading = ProcedureReader.Read(example, "example.yaml");

        Assert.Empty(reading.Problems);
        Assert.NotEmpty(reading.Procedure!.Steps);
        Assert.Empty(reading.Lint());
    }

    [Fact]
    public void EveryField_InTheGuide_IsNamed()
    {
        var text = Repository.Text(Guide);

        Assert.All(
            FieldTable.Walk(ProcedureFields.Procedure),
            row => Assert.Contains($"`{row.Path}`", text, StringComparison.Ordinal)
        );
    }
}
