using System.Collections.Immutable;
using Cogwright.Paper.Blocks;
using Cogwright.Setup.Records;

namespace Cogwright.Paper;

/// <summary>The blocks of a record.</summary>
internal static class RecordBlocks
{
    private const double TitlePt = 18;
    private const double HeadingPt = 12;
    private const double TextPt = 10.5;
    private const double FinePt = Setting.SmallPt;
    private const double ApartPt = 8;

    /// <summary>The first page: what was done, what to know, cautions, first check, lines to sign, the square code.</summary>
    internal static IEnumerable<Block> ForCustomer(
        RecordContent content,
        string code,
        double widthPt
    )
    {
        yield return new Paragraph("title", content.Title, sizePt: TitlePt, bold: true);
        yield return new Paragraph("bike", content.BikeName, sizePt: HeadingPt, bold: true);
        if (content.IsClosed)
        {
            yield return new Paragraph("standing", content.Standing, sizePt: TextPt);
        }
        else
        {
            yield return new FramedText("standing", content.Standing, TextPt, bold: true);
        }
        foreach (var block in List("done", content.Done, TextPt))
        {
            yield return block;
        }
        foreach (var block in List("know", content.Know, TextPt, bold: true))
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
        foreach (var block in List("firstCheck", [content.FirstCheck], TextPt))
        {
            yield return block;
        }
        yield return new SpaceBlock(ApartPt);
        yield return new SignBlock(content.Signatures);
        if (code.Length > 0)
        {
            yield return new SpaceBlock(ApartPt);
            var square = new CodeBlock(code);
            yield return new BesideBlock(
                square,
                new StackBlock([
                    new Paragraph("code", Texts.Get("record.code"), sizePt: FinePt),
                    new Paragraph("code", code, sizePt: FinePt),
                ]),
                CodeBlock.SidePt + ApartPt
            );
        }
    }

    /// <summary>The pages behind it.</summary>
    internal static IEnumerable<Block> ForMechanic(RecordContent content)
    {
        yield return new Paragraph(
            "mechanic",
            Texts.Get("record.mechanic"),
            heading: true,
            sizePt: TitlePt - 2
        );
        yield return new Paragraph(
            "bike",
            $"{content.BikeName}. {content.Title}. {content.Standing}. {content.Clock}",
            sizePt: FinePt
        );
        IEnumerable<Block> blocks =
        [
            .. List("intake", content.Intake, FinePt),
            .. List("parts", content.Parts, FinePt),
            .. Table("torques", content.Torques),
            .. Table("readings", content.Readings),
            .. Table("looks", content.Looks),
            .. List("exceptions", content.Exceptions, FinePt),
            .. List("again", content.Again, FinePt),
            .. List("happened", content.Happened, FinePt),
            .. List("hands", content.Hands, FinePt),
            .. List("amendments", content.Amendments, FinePt),
            .. List("late", content.Late, FinePt),
            .. List("proof", content.Proof, FinePt),
        ];
        foreach (var block in blocks)
        {
            yield return block;
        }
    }

    private static IEnumerable<Block> List(
        string name,
        ImmutableArray<string> texts,
        double sizePt,
        bool bold = false
    )
    {
        if (texts.IsEmpty)
        {
            yield break;
        }
        yield return new SpaceBlock(ApartPt);
        yield return new Paragraph(name, Texts.Get("record." + name), heading: true, HeadingPt);
        foreach (var text in texts)
        {
            yield return new LongParagraph(name, "• " + text, sizePt, bold);
        }
    }

    private static IEnumerable<Block> Table(string name, ImmutableArray<RecordRow> rows)
    {
        if (rows.IsEmpty)
        {
            yield break;
        }
        yield return new SpaceBlock(ApartPt);
        yield return new Paragraph(name, Texts.Get("record." + name), heading: true, HeadingPt);
        yield return new RecordRowBlock(
            name,
            new(
                Texts.Get("record.step"),
                Texts.Get("record.asked"),
                Texts.Get("record.came"),
                Texts.Get("record.with"),
                Texts.Get("record.by")
            ),
            isHead: true
        );
        foreach (var row in rows)
        {
            yield return new RecordRowBlock(name, row, isHead: false);
        }
    }
}
