using System.Globalization;
using Cogwright.Files.Fields;

namespace Cogwright.Files.Tests;

/// <summary>What an editor is told about a sheet.</summary>
public sealed class SheetFieldsTests
{
    public static TheoryData<string> Demos => [.. Repository.DemoSpecs];

    private static SpecSheet Sheet(string text) => SpecSheet.Read(text, "a.yaml").Sheet!;

    private static SpecSheet Demo(string file) => Sheet(Repository.Text("demo/specs/" + file));

    private static IEnumerable<SpecField> All(SheetFields fields) =>
        fields.Groups.SelectMany(g =>
            g.Fields.Concat(g.Lists.SelectMany(l => l.Entries.SelectMany(e => e)))
        );

    [Fact]
    public void Label_OfEveryFieldOfTheTable_IsWritten() =>
        Assert.Equal(
            [],
            FieldTable
                .Walk(SpecFields.Spec)
                .Select(row => row.Path)
                .Where(path => FieldTable.LabelOrNull(path) is null)
        );

    [Fact]
    public void Labels_WithinAGroup_AreAllDifferent()
    {
        foreach (var group in SheetFields.Of(Demo("road-2x12-wireless.yaml"), isWhole: true).Groups)
        {
            Assert.Equal(
                group.Fields.Length,
                group.Fields.Select(f => f.Label).Distinct(StringComparer.Ordinal).Count()
            );
        }
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void Groups_OfEveryDemoSpec_HoldEveryTextOfTheSheet(string file)
    {
        var sheet = Demo(file);
        var shown = All(SheetFields.Of(sheet)).Where(f => f.Text is not null).Select(f => f.Path);
        Assert.Equal(
            sheet.Values.Keys.Where(path => path != "format").Order(StringComparer.Ordinal),
            shown.Order(StringComparer.Ordinal)
        );
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void Origins_OfEveryDemoSpec_AgreeWithTheAssumptionsOfTheSpec(string file)
    {
        var sheet = Demo(file);
        var fields = SheetFields.Of(sheet, isWhole: true, parts: DemoParts.Library);
        foreach (var assumed in sheet.Check(DemoParts.Library).Spec!.Drivetrain.Assumptions)
        {
            var field = fields.Find(assumed.Path)!;
            Assert.Equal(assumed.Value, field.InForce);
            Assert.Equal(
                assumed.From,
                field.Origin == ValueOrigin.Class ? field.From : "common practice"
            );
            Assert.True(field.Origin is ValueOrigin.Class or ValueOrigin.CommonPractice);
        }
    }

    [Fact]
    public void Origin_OfAValueThatTheBenchFound_IsMeasured()
    {
        var fields = SheetFields.Of(
            Demo("measured-2x12.yaml"),
            [new("frame.chainstay", "412.3 ± 0.3 mm")]
        );
        var chainstay = fields.Find("frame.chainstay")!;
        Assert.Equal(ValueOrigin.Measured, chainstay.Origin);
        Assert.Equal("412.3 ± 0.3 mm", chainstay.InForce);
        Assert.Equal(ValueOrigin.Measured, fields.Find("measured.axleToHangerBolt.value")!.Origin);
    }

    [Fact]
    public void Groups_OfASingleSpeed_HaveNoDerailleurNoHangerAndNoAdjusters()
    {
        var groups = SheetFields.Of(Demo("single-speed.yaml")).Groups.Select(g => g.Path).ToList();
        Assert.DoesNotContain("rearDerailleur", groups);
        Assert.DoesNotContain("adjusters", groups);
        Assert.Contains(
            "rearDerailleur",
            SheetFields.Of(Demo("single-speed.yaml"), isWhole: true).Groups.Select(g => g.Path)
        );
    }

    [Fact]
    public void Groups_OfAFourBar_HaveItsLinksButNoSwingarmPivot()
    {
        var paths = All(SheetFields.Of(Demo("full-suspension-1x12.yaml")))
            .Select(f => f.Path)
            .ToList();
        Assert.Contains("frame.suspension.lowerLink.frame", paths);
        Assert.DoesNotContain("frame.suspension.pivot", paths);
    }

    [Fact]
    public void Groups_OfASheetFullOfErrors_AreStillThere()
    {
        var fields = SheetFields.Of(
            SpecSheet
                .Empty.With("name", "[x] y]")
                .With("frame.chainstay", "about 41")
                .With("rings[0].teeth", "many")
        );
        Assert.Equal("about 41", fields.Find("frame.chainstay")!.Text);
        Assert.Equal("many", fields.Entry("rings", 0)[0].Text);
    }

    [Fact]
    public void Entry_BeyondTheEndOfAList_IsEmptyAndCanBeFilled()
    {
        var sheet = Demo("touring-3x9-cable.yaml");
        var entry = SheetFields.Of(sheet).Entry("adjusters", 5);
        Assert.All(entry, f => Assert.Null(f.Text));
        var more = sheet.With(entry[0].Path, "height screw").With(entry[1].Path, "front-height");
        Assert.Equal(6, more.CountOf("adjusters"));
        Assert.Equal(6, more.Check(DemoParts.Library).Spec!.Drivetrain.Adjusters.Length);
        Assert.Equal(5, more.Without("adjusters", 0).CountOf("adjusters"));
    }

    [Fact]
    public void LabelAt_OfAnEntry_NamesTheEntry()
    {
        Assert.Equal("Ring 2: teeth", SheetFields.LabelAt("rings[1].teeth"));
        Assert.Equal("Chainstay length", SheetFields.LabelAt("frame.chainstay"));
        Assert.Equal(
            "Guide pulley (upper): teeth",
            SheetFields.LabelAt("rearDerailleur.cage.guide.teeth")
        );
    }

    [Fact]
    public void Read_OfShortForms_GivesEveryFigureItsOwnPath()
    {
        var sheet = Sheet(
            "{name: a, rings: [50, 34], gearsNotUsed: [50/34], hanger: {offset: {x: -8, y: -28}}, measured: {chainline: 43.5}}"
        );
        Assert.Equal("34", sheet["rings[1].teeth"]);
        Assert.Equal("34", sheet["gearsNotUsed[0].cog"]);
        Assert.Equal("[-8, -28]", sheet["hanger.offset"]);
        Assert.Equal("43.5", sheet["measured.chainline.value"]);
        Assert.Contains("chainline: 43.5\n", sheet.ToYaml(), StringComparison.Ordinal);
        Assert.Contains("  - 50\n", sheet.ToYaml(), StringComparison.Ordinal);
    }

    public static TheoryData<string> Ranges => [.. FieldRanges.All.Keys];

    /// <summary>The range that an editor tells is the one that the check holds: just inside passes, just outside does not.</summary>
    [Theory]
    [MemberData(nameof(Ranges))]
    public void Range_OfEveryFieldThatHasOne_IsTheOneThatTheCheckHolds(string table)
    {
        var range = FieldRanges.All[table];
        var path = table.Replace("[]", "[0]", StringComparison.Ordinal);
        var sheet = Whole(table);
        var field = SheetFields.Of(sheet, isWhole: true).Find(path)!;
        var step = field.Kind == FieldKind.Count ? 1 : 1e-4;
        bool IsTold(double value)
        {
            var text = value.ToString("0.######", CultureInfo.InvariantCulture);
            text =
                field.Kind == FieldKind.Lengths ? $"[{text}]"
                : field.Unit == "%" ? text + " %"
                : text;
            return sheet
                .With(path, text)
                .Check(DemoParts.Library)
                .Problems.Any(p => p.IsError && IsRange(p, field));
        }
        Assert.True(IsTold(range.Least - step), $"{range.Least - step}");
        Assert.False(IsTold(range.Least), $"{range.Least}");
        Assert.True(IsTold(range.Most + step), $"{range.Most + step}");
        Assert.False(IsTold(range.Most), $"{range.Most}");
    }

    /// <summary>Other checks may have a word on a figure at its limit; what counts is the sentence about the range.</summary>
    private static bool IsRange(FileProblem problem, SpecField field) =>
        field.IsMeant(problem)
        && (
            problem.Message.Contains(" to ", StringComparison.Ordinal)
            || problem.Message.Contains("between", StringComparison.Ordinal)
            || problem.Message.Contains("part of the travel", StringComparison.Ordinal)
        );

    private static SpecSheet Whole(string table)
    {
        var sheet = Demo(
            table.StartsWith("frame.suspension", StringComparison.Ordinal)
                ? "full-suspension-1x12.yaml"
                : "touring-3x9-cable.yaml"
        );
        return table switch
        {
            _ when table.StartsWith("rearDerailleur.sprung", StringComparison.Ordinal) => Demo(
                "touring-2x9-sprung.yaml"
            ),
            "shifting.offsetStep" => Demo("road-2x12-wireless.yaml"),
            _ => sheet,
        };
    }
}
