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
            Section(blocks, "target-notes", "sheet.targetNotes", Notes(content, density));
        }
        return blocks;
    }

    /// <summary>Notes, and for what is only done or looked at the gear, convention and tool that side one left out.</summary>
    private static IEnumerable<string> Notes(WorksheetContent content, Density density)
    {
        var told = new HashSet<string>();
        foreach (var target in content.Stages.SelectMany(stage => stage.Targets))
        {
            var parts = new List<string>();
            if (target.Unit.Length == 0 && !density.TickDetails)
            {
                if (target.Gear is { } gear)
                {
                    parts.Add(Texts.Get("sheet.gearSentence", Amount.Gear(gear)));
                }
                if (target.Convention.Length > 0)
                {
                    parts.Add(Texts.Get("sheet.sentence", target.Convention.TrimEnd('.')));
                }
            }
            if (target.Unit.Length == 0 && target.Tool is { } tool)
            {
                parts.Add(Texts.Get("sheet.toolSentence", tool));
            }
            if (target.Note is { Length: > 0 } note)
            {
                parts.Add(note);
            }
            var text = string.Join(' ', parts);
            // A fastener is tightened in its stage and again in the walk-round: its note is told once.
            if (text.Length > 0 && (told.Add(text) || !target.IsTorque))
            {
                yield return Texts.Get("sheet.targetNote", target.Title, text);
            }
        }
    }

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
