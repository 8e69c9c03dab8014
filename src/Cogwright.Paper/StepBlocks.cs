using System.Globalization;
using Cogwright.Paper.Blocks;
using Cogwright.Setup;

namespace Cogwright.Paper;

/// <summary>
/// Sets the steps of a booklet: what can go wrong and what must hold before the action, what it must come to behind it, with
/// room to write. A step is one block; only one higher than a page comes apart.
/// </summary>
internal sealed class StepBlocks(
    BookletContent content,
    StepDrawings drawings,
    Setting setting,
    double widthPt
)
{
    private const double ActionPt = 13;
    private const double TextPt = 10;
    private const double AboveActionPt = 3;

    /// <summary>One step.</summary>
    internal Block Of(BookletStep step)
    {
        var number = step.Number.ToString(CultureInfo.InvariantCulture);
        List<Block> lead = [new StepHead(step)];
        lead.AddRange(step.Hazards.SelectMany(hazard => Hazard(number, hazard)));
        lead.AddRange(
            Ticks(
                setting,
                "must-hold:" + number,
                Texts.Get("booklet.mustHold"),
                step.MustHold,
                TextPt,
                widthPt
            )
        );
        lead.Add(new SpaceBlock(AboveActionPt));
        lead.AddRange(Text("action:" + number, step.Action, ActionPt, bold: true));
        var picture = step.Check is { } check ? drawings.Of(check, step.Number) : null;
        return new StackBlock([
            new StackBlock(lead),
            .. Body(step, number, picture),
            .. picture?.Below is { } below ? (Block[])[new SpaceBlock(AboveActionPt), below] : [],
        ]);
    }

    /// <summary>Sentences to tick, the first with the heading; each may be parted from the next.</summary>
    internal static List<Block> Ticks(
        Setting setting,
        string name,
        string heading,
        IReadOnlyList<string> lines,
        double sizePt,
        double widthPt
    ) =>
        [
            .. lines
                .SelectMany(line => LongText.Pieces(setting, line, sizePt, false, widthPt - 20))
                .Select((line, at) => new TickLines(name, at == 0 ? heading : "", [line], sizePt)),
        ];

    private IEnumerable<Block> Hazard(string number, BookletHazard hazard)
    {
        var name = "hazard:" + number;
        var whole = hazard.Danger + " " + hazard.Avoidance;
        if (HazardBlock.Cut(setting, whole, widthPt, bold: true).Count <= 1)
        {
            return [new HazardBlock(name, hazard.Signal, hazard.Danger, hazard.Avoidance)];
        }
        return
        [
            .. HazardBlock
                .Cut(setting, hazard.Danger, widthPt, bold: false)
                .Select(piece => new HazardBlock(name, hazard.Signal, piece, "")),
            .. HazardBlock
                .Cut(setting, hazard.Avoidance, widthPt, bold: true)
                .Select(piece => new HazardBlock(name, hazard.Signal, "", piece)),
        ];
    }

    private IEnumerable<Block> Body(BookletStep step, string number, StepPicture? picture)
    {
        var name = "step-text:" + number;
        IEnumerable<Block> Said(string key, string text) =>
            text.Length == 0 ? [] : Text(name, Texts.Get(key, text), TextPt);

        return
        [
            .. Said("booklet.uses", string.Join("; ", step.Uses)),
            .. step.TimerMinutes is { } minutes
                ? Text(name, Texts.Get("booklet.timer", minutes), TextPt)
                : [],
            .. step.Torque is { } torque ? Torque(torque, name) : [],
            .. step.Check is { } check ? Check(check, name, picture) : [],
            .. step.Faults.IsEmpty ? [] : Fault(number, string.Join(' ', step.Faults)),
            .. step.Leaves.SelectMany(text => Text(name, text, TextPt)),
            .. Said("booklet.note", step.Note),
            .. picture?.SeenAtStep is { } seen
                ? Text(name, Texts.Get("booklet.drawingAt", seen), TextPt)
                : [],
        ];
    }

    private IEnumerable<Block> Torque(BookletTorque torque, string name) =>
        [
            new TorqueRow(torque.Target, ""),
            .. Text(
                name,
                torque.Target.Tool is { } tool
                    ? Texts.Get("booklet.treatmentTool", torque.Treatment, tool)
                    : Texts.Get("booklet.treatment", torque.Treatment),
                TextPt
            ),
            .. torque.Target.Note is { } note ? Text(name, note, TextPt) : [],
        ];

    private IEnumerable<Block> Check(BookletCheck check, string name, StepPicture? picture) =>
        [
            .. check.Target is { } target ? Measure(check, target, picture) : [],
            .. check.Where.Length > 0 ? Text(name, check.Where, TextPt) : [],
            .. check.Convention.Length > 0
                ? Text(name, Texts.Get("booklet.how", check.Convention.TrimEnd('.')), TextPt)
                : [],
            .. check.Expected.Length > 0
                ? Ticks(
                    setting,
                    name,
                    "",
                    [Texts.Get("booklet.expected", check.Expected)],
                    TextPt,
                    widthPt
                )
                : [],
            .. check.GoesOnRecord ? Text(name, Texts.Get("booklet.onRecord"), TextPt) : [],
        ];

    /// <summary>Room to write the reading: the worksheet's own box where it has one for this quantity.</summary>
    private IEnumerable<Block> Measure(BookletCheck check, Target target, StepPicture? picture)
    {
        if (picture is { HasChainBox: true } && target.Value == content.Chain.Pitches)
        {
            return [new ChainBlock(content.Chain, content.DirectPath)];
        }
        if (check.Quantity == TargetNames.HangerStraight && check.Faults.IsEmpty)
        {
            return [new HangerClock(target)];
        }
        return [new StackBlock([new WriteInHeadings(), new TargetRow(target)])];
    }

    private IEnumerable<Block> Fault(string number, string fault) =>
        LongText
            .Pieces(setting, Texts.Get("booklet.fault", fault), TextPt, true, widthPt - 20)
            .Select(piece => new FramedText("fault:" + number, piece, TextPt, bold: true));

    private IEnumerable<Block> Text(string name, string text, double sizePt, bool bold = false) =>
        LongText
            .Pieces(setting, text, sizePt, bold, widthPt)
            .Select(piece => new Paragraph(name, piece, sizePt: sizePt, bold: bold));
}
