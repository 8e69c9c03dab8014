using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Setup;
using Cogwright.Setup.Procedures;

namespace Cogwright.Paper.Tests;

/// <summary>The booklet of a procedure: nothing lies over anything, a hazard stands before its action, nothing is left out.</summary>
public sealed class BookletTests
{
    private const string Touring = "touring-3x9-cable";
    private const string CableSetUp = "cable-3x9-set-up";

    public static IEnumerable<TheoryDataRow<string, string, PaperSize>> All => BookletCases.All;

    [Theory]
    [MemberData(nameof(All))]
    public void Layout_AnyDemo_KeepsTheRulesOfPaper(string procedure, string bike, PaperSize size)
    {
        var layout = BookletCases.Of(procedure, bike, size).Layout;
        LayoutRules.InsideTheMargins(layout);
        LayoutRules.BlocksApart(layout);
        LayoutRules.TextsInTheirCells(layout);
        LayoutRules.TextsApart(layout);
        LayoutRules.EightPointsAtLeast(layout);
        Assert.DoesNotContain(
            layout.Printed,
            text => text.Text.Contains('…', StringComparison.Ordinal) && text.Block != "assumed"
        );
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Steps_AnyDemo_StandInOrderEachWithItsHazardsBeforeItsAction(
        string procedure,
        string bike,
        PaperSize size
    )
    {
        var layout = BookletCases.Of(procedure, bike, size).Layout;
        var steps = BookletCases.Of(procedure).Steps;
        var last = (Side: -1, Bottom: 0.0);
        for (var at = 0; at < steps.Length; at++)
        {
            var number = (at + 1).ToString(CultureInfo.InvariantCulture);
            var head = Assert.Single(Named(layout, "step:" + number));
            var hazards = Named(layout, "hazard:" + number);
            var action = Assert.Single(Named(layout, "action:" + number));
            Assert.True(After(last, head), $"{head} before {last}");
            Assert.Equal(steps[at].Hazards.Length, hazards.Length);
            // No step of a demo is higher than a page: none is parted from what stands before it.
            Assert.All(
                [.. hazards, .. Named(layout, "must-hold:" + number)],
                block =>
                {
                    Assert.Equal(head.Side, block.Side);
                    Assert.True(block.Box.Bottom <= action.Box.Top + 0.01, $"{block}");
                }
            );
            Assert.Equal(head.Side, action.Side);
            Assert.Equal(steps[at].Action, Words(layout, "action:" + number));
            last = (action.Side, action.Box.Bottom);
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Pages_AnyDemo_BearBikeProcedureAndNumber(
        string procedure,
        string bike,
        PaperSize size
    )
    {
        var layout = BookletCases.Of(procedure, bike, size).Layout;
        var content = BookletCases.Content(BookletCases.Of(procedure), bike);
        for (var side = 0; side < layout.Sides; side++)
        {
            var foot = layout
                .Printed.Where(text => text.Side == side && text.Block == "foot")
                .Select(text => text.Text)
                .ToList();
            Assert.Equal(
                [$"{content.BikeName} · {content.Title}", $"page {side + 1} of {layout.Sides}"],
                foot
            );
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Torques_AnyDemo_StandOnceMoreAtTheEndInOrder(
        string procedure,
        string bike,
        PaperSize size
    )
    {
        var layout = BookletCases.Of(procedure, bike, size).Layout;
        var expected = BookletCases
            .Content(BookletCases.Of(procedure), bike)
            .Steps.Where(step => step.Torque is not null)
            .Select(step => "target:again-" + step.Torque!.Target.Id);
        Assert.Equal(
            expected,
            layout
                .Blocks.Where(block =>
                    block.Name.StartsWith("target:again-", StringComparison.Ordinal)
                )
                .Select(block => block.Name)
        );
        var steps = layout.Blocks.Last(block =>
            block.Name.StartsWith("action:", StringComparison.Ordinal)
        );
        Assert.All(
            Named(layout, "torques"),
            heading => Assert.True(After((steps.Side, steps.Box.Bottom), heading))
        );
    }

    [Theory]
    [InlineData(CableSetUp, Touring)]
    [InlineData("wireless-2x12-installation", "road-2x12-wireless")]
    [InlineData("full-suspension-1x12-set-up", "full-suspension-1x12")]
    public void Drawings_StandWithTheStepThatMeasuresWhatTheyShow(string procedure, string bike)
    {
        var layout = BookletCases.Of(procedure, bike, PaperSize.A4).Layout;
        var steps = BookletCases.Of(procedure).Steps;
        foreach (
            var (quantities, word) in new (string[], string)[]
            {
                ([TargetNames.Gap], "guide pulley under"),
                ([TargetNames.Gap], "side view"),
                (["inboard-stop", TargetNames.InboardStopProven], "top view"),
            }
        )
        {
            var asking = Enumerable
                .Range(1, steps.Length)
                .Where(number => quantities.Contains(steps[number - 1].Check?.Quantity))
                .ToList();
            var at = asking[0];
            var action = Assert.Single(Named(layout, $"action:{at}"));
            var drawing = layout.Blocks.First(block =>
                block.Name.StartsWith("drawing:", StringComparison.Ordinal)
                && block.Name.Contains(word, StringComparison.Ordinal)
                && After((action.Side, action.Box.Bottom - 0.01), block)
            );
            Assert.Equal(action.Side, drawing.Side);
            var next = Named(layout, $"step:{at + 1}");
            Assert.All(next, head => Assert.True(After((drawing.Side, drawing.Box.Top), head)));
            // It stands once; the others point to it.
            Assert.All(
                asking.Skip(1),
                other =>
                    Assert.Contains(
                        $"Drawing: at step {at}.",
                        Words(layout, $"step-text:{other}"),
                        StringComparison.Ordinal
                    )
            );
        }
    }

    [Fact]
    public void Figures_ThatTheBikeDoesNotGive_AreToldAtTheStepAndOnPageOne()
    {
        var procedure = BookletCases.Of(CableSetUp);
        var content = BookletCases.Content(procedure, "road-2x12-wireless");
        var layout = BookletCases.Set(procedure, "road-2x12-wireless", PaperSize.A4).Layout;
        Assert.NotEmpty(content.WithoutFigure);
        Assert.Contains(
            "does not give every figure",
            Words(layout, "notice"),
            StringComparison.Ordinal
        );
        foreach (var (step, fault) in content.WithoutFigure)
        {
            Assert.Contains(fault, Words(layout, $"fault:{step}"), StringComparison.Ordinal);
            Assert.Contains(
                $"no figure on this bike, see step {step}",
                Words(layout, $"target:again-step-{step}-torque"),
                StringComparison.Ordinal
            );
            // Where there is no figure, none is printed.
            Assert.DoesNotContain(
                layout.Printed,
                text =>
                    text.Block == $"target:step-{step}-torque" && text.Text.Any(char.IsAsciiDigit)
            );
        }
    }

    [Fact]
    public void Procedure_ThatBreaksARule_SaysSoOnPageOne()
    {
        var procedure = BookletCases.Of(CableSetUp) with { Skill = "" };
        var layout = BookletCases.Set(procedure, Touring, PaperSize.A4).Layout;
        Assert.All(Named(layout, "notice"), block => Assert.Equal(0, block.Side));
        Assert.Contains(
            "Not ready to be given out",
            Words(layout, "notice"),
            StringComparison.Ordinal
        );
        Assert.Empty(Named(BookletCases.Of(CableSetUp, Touring, PaperSize.A4).Layout, "notice"));
    }

    [Theory]
    [InlineData(PaperSize.A4)]
    [InlineData(PaperSize.Letter)]
    public void Texts_LongerThanAPage_GoOnOverleafAndLoseNoWord(PaperSize size)
    {
        string Long(string word) =>
            string.Join(' ', Enumerable.Range(0, 500).Select(i => $"{word}{i}"));
        var procedure = BookletCases.Of(CableSetUp);
        var step = procedure.Steps[0] with
        {
            Action = Long("act"),
            Note = Long("note"),
            TimerMinutes = 5,
            Hazards =
            [
                new()
                {
                    Signal = SignalWord.Warning,
                    Harm = Harm.Serious,
                    Nature = Long("nature"),
                    Avoidance = Long("avoid"),
                },
            ],
            Check = new() { Quantity = TargetNames.Gap, Expected = Long("right") },
        };
        procedure = procedure with
        {
            Title = Long("title"),
            Tools =
            [
                .. procedure.Tools,
                .. Enumerable.Range(0, 90).Select(i => new ProcedureItem($"t{i}", $"tool{i}")),
            ],
            Steps = [step, .. procedure.Steps.Skip(1)],
        };
        var layout = BookletCases.Set(procedure, Touring, size).Layout;
        LayoutRules.InsideTheMargins(layout);
        LayoutRules.BlocksApart(layout);
        LayoutRules.TextsInTheirCells(layout);
        LayoutRules.TextsApart(layout);
        var printed = string.Join(
            ' ',
            layout.Printed.Where(text => text.Block != "foot").Select(text => text.Text)
        );
        foreach (var word in new[] { "title", "nature", "avoid", "act", "right", "note" })
        {
            Assert.Contains(Long(word), Only(printed, word), StringComparison.Ordinal);
        }
        Assert.Contains("Takes 5 min: from", printed, StringComparison.Ordinal);
        Assert.Contains("tool89", printed, StringComparison.Ordinal);
        Assert.True(
            layout.Blocks.ToList().FindLastIndex(block => block.Name == "hazard:1")
                < layout.Blocks.ToList().FindIndex(block => block.Name == "action:1")
        );
    }

    [Fact]
    public void Booklet_SameContent_SameBytes() =>
        Assert.Equal(
            BookletCases.Of(CableSetUp, Touring, PaperSize.A4).Pdf,
            BookletCases.Set(BookletCases.Of(CableSetUp), Touring, PaperSize.A4).Pdf
        );

    private static ImmutableArray<PlacedBlock> Named(WorksheetLayout layout, string name) =>
        [.. layout.Blocks.Where(block => block.Name == name)];

    private static bool After((int Side, double Bottom) last, PlacedBlock block) =>
        block.Side > last.Side || (block.Side == last.Side && block.Box.Top >= last.Bottom - 0.01);

    private static string Words(WorksheetLayout layout, string name) =>
        string.Join(
            ' ',
            layout.Printed.Where(text => text.Block == name).Select(text => text.Text)
        );

    /// <summary>Only the words of one long text, whatever stands between them on paper.</summary>
    private static string Only(string printed, string word) =>
        string.Join(
            ' ',
            printed
                .Split(' ')
                .Where(each =>
                    each.StartsWith(word, StringComparison.Ordinal)
                    && each[word.Length..].All(char.IsAsciiDigit)
                    && each.Length > word.Length
                )
        );
}
