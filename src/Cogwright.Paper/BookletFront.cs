using Cogwright.Paper.Blocks;
using Cogwright.Setup;

namespace Cogwright.Paper;

/// <summary>What stands before the first step of a booklet.</summary>
internal static class BookletFront
{
    private const double TitlePt = 18;
    private const double TextPt = 10.5;
    private const double ApartPt = 10;

    // Longer lists do not stand side by side: they may have to go on overleaf.
    private const int MostBeside = 14;

    /// <summary>Title, cautions, what is to be known of the figures, what to have ready and what to look at.</summary>
    internal static IEnumerable<Block> Of(BookletContent content, Setting setting, double widthPt)
    {
        yield return new SpaceBlock(ApartPt);
        foreach (var block in Text("title", content.Title, TitlePt, bold: true))
        {
            yield return block;
        }
        foreach (var block in Text("purpose", content.Purpose, TextPt))
        {
            yield return block;
        }
        var skill = content.Skill.Length == 0 ? "" : Texts.Get("booklet.skill", content.Skill);
        foreach (var block in Text("skill", skill, TextPt))
        {
            yield return block;
        }
        yield return new SpaceBlock(ApartPt / 2);
        yield return new FramedText(
            "cautions",
            string.Join('\n', content.Cautions.Select(text => Texts.Get("sheet.caution", text))),
            TextPt,
            bold: true
        );
        yield return new AssumedBlock(content.Assumed, "booklet.assumedFirst");
        foreach (var text in Notices(content))
        {
            foreach (var piece in LongText.Pieces(setting, text, TextPt, true, widthPt - 20))
            {
                yield return new FramedText("notice", piece, TextPt, bold: true);
            }
        }
        yield return new SpaceBlock(ApartPt / 2);
        var tools = Ticks(setting, "tools", content.Tools, widthPt / 2);
        var supplies = Ticks(setting, "supplies", content.Supplies, widthPt / 2);
        if (
            tools is not null
            && supplies is not null
            && content.Tools.Length <= MostBeside
            && content.Supplies.Length <= MostBeside
        )
        {
            yield return new BesideBlock(tools, supplies, widthPt / 2);
        }
        else
        {
            foreach (var block in new[] { tools, supplies }.OfType<Block>())
            {
                yield return block;
            }
        }
        yield return new SpaceBlock(ApartPt / 2);
        if (Ticks(setting, "starts-with", content.StartsWith, widthPt) is { } starts)
        {
            yield return starts;
        }

        IEnumerable<Block> Text(string name, string text, double sizePt, bool bold = false) =>
            LongText
                .Pieces(setting, text, sizePt, bold, widthPt)
                .Select(piece => new Paragraph(name, piece, sizePt: sizePt, bold: bold));
    }

    /// <summary>What is wrong with the procedure, or with it on this bike: told before the work begins.</summary>
    private static IEnumerable<string> Notices(BookletContent content)
    {
        if (!content.RulesBroken.IsEmpty)
        {
            yield return Texts.Get(
                "booklet.rulesBroken",
                content.RulesBroken.Length,
                string.Join(' ', content.RulesBroken)
            );
        }
        if (!content.WithoutFigure.IsEmpty)
        {
            yield return Texts.Get(
                "booklet.withoutFigure",
                string.Join(", ", content.WithoutFigure.Select(each => each.Step).Distinct())
            );
        }
    }

    private static StackBlock? Ticks(
        Setting setting,
        string name,
        IReadOnlyList<string> lines,
        double widthPt
    ) =>
        lines.Count == 0
            ? null
            : new(
                StepBlocks.Ticks(
                    setting,
                    name,
                    Texts.Get("booklet." + name),
                    lines,
                    TextPt,
                    widthPt
                )
            );
}
