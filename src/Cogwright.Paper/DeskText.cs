using System.Collections.Immutable;
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
        Assumed(blocks, content.Assumed);
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
        Section(
            blocks,
            "cautions-complete",
            "sheet.cautionsFull",
            content.Cautions.Concat(content.Stages.SelectMany(stage => stage.Cautions)).Distinct()
        );
        Section(blocks, "chain-reasons", "sheet.chainReasons", content.Chain.Lines);
        Section(blocks, "turn-notes", "sheet.turnNotes", content.Turns?.Notes ?? []);
        Section(blocks, "target-notes", "sheet.targetNotes", Notes(content, density));
        return blocks;
    }

    /// <summary>Adds every value that nobody measured.</summary>
    internal static void Assumed(List<Block> blocks, ImmutableArray<AssumedValue> assumed) =>
        Section(
            blocks,
            "assumed-list",
            "sheet.assumedComplete",
            assumed.Select(value =>
                Texts.Get("sheet.assumedLong", value.Path, value.Value, value.From)
            )
        );

    // Their notes stand in the chain box and in the box of gears not to use.
    private static readonly HashSet<string> Boxed = [TargetNames.ChainPitches, "gears-not-to-use"];

    /// <summary>Notes, and what side one shortened or left out: conventions, and tools of what is only done or looked at.</summary>
    private static IEnumerable<string> Notes(WorksheetContent content, Density density)
    {
        var told = new HashSet<string>();
        foreach (var target in content.Stages.SelectMany(stage => stage.Targets))
        {
            if (Boxed.Contains(target.Id))
            {
                continue;
            }
            var parts = new List<string>();
            var isTick = target.Unit.Length == 0;
            if (
                target.Convention.Length > 0
                && (target.ConventionInShort is not null || (isTick && !density.TickDetails))
            )
            {
                parts.Add(Texts.Get("sheet.sentence", target.Convention.TrimEnd('.')));
            }
            if (isTick && !density.TickTools && target.Tool is { } tool)
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
                yield return Texts.Get("sheet.targetNote", ShortWords.Title(target), text);
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
