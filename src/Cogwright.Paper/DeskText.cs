using Cogwright.Paper.Blocks;
using Cogwright.Setup;

namespace Cogwright.Paper;

/// <summary>The text read at the desk: complete lists, and everything that side one shortened or left out.</summary>
internal static class DeskText
{
    /// <summary>Headings and paragraphs in order.</summary>
    internal static List<Block> Of(WorksheetContent content, Density density)
    {
        var blocks = new List<Block>();
        Section(
            blocks,
            "assumed-list",
            "sheet.assumedComplete",
            content.Assumed.Select(value =>
                Texts.Get("sheet.assumedLong", value.Path, value.Value, value.From)
            )
        );
        Section(
            blocks,
            "gears-reasons",
            "sheet.gearsReasons",
            content.GearsNotToUse.Select(gear =>
                Texts.Get(
                    "sheet.gearReason",
                    Amount.Gear((gear.RingTeeth, gear.CogTeeth)),
                    gear.Reason
                )
            )
        );
        if (density.Cautions != CautionForm.Full)
        {
            Section(
                blocks,
                "cautions-complete",
                "sheet.cautionsFull",
                content
                    .Cautions.Concat(content.Stages.SelectMany(stage => stage.Cautions))
                    .Distinct()
            );
        }
        if (!density.Notes)
        {
            Section(blocks, "chain-reasons", "sheet.chainReasons", content.Chain.Lines);
            Section(blocks, "turn-notes", "sheet.turnNotes", content.Turns?.Notes ?? []);
            Section(blocks, "target-notes", "sheet.targetNotes", Notes(content));
        }
        return blocks;
    }

    private static IEnumerable<string> Notes(WorksheetContent content) =>
        from stage in content.Stages
        from target in stage.Targets
        let tool = target.Unit.Length == 0 && target.Tool is { } named
            ? Texts.Get("sheet.toolSentence", named)
            : ""
        let note = string.Join(
            ' ',
            new[] { target.Note ?? "", tool }.Where(text => text.Length > 0)
        )
        where note.Length > 0
        select Texts.Get("sheet.targetNote", target.Title, note);

    private static void Section(
        List<Block> blocks,
        string name,
        string headingKey,
        IEnumerable<string> paragraphs
    )
    {
        var at = blocks.Count;
        blocks.AddRange(paragraphs.Select(text => new Paragraph(name, text)));
        if (blocks.Count > at)
        {
            blocks.Insert(at, new Paragraph(name, Texts.Get(headingKey), heading: true));
        }
    }
}
