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
        lead.AddRange(Text("action:" + number, step.Action, ActionPt, widthPt, bold: true));
        var picture = step.Check is { } check ? drawings.Of(check, step.Number) : null;
        var beside = picture?.Beside;
        var width = beside is null ? widthPt : widthPt - StepDrawings.BesidePt - 10;
        var body = new StackBlock([.. Body(step, number, picture, width)]);
        List<Block> whole = [new StackBlock(lead)];
        if (!body.IsEmpty)
        {
            whole.Add(beside is null ? body : new BesideBlock(body, beside, StepDrawings.BesidePt));
        }
        if (picture?.Below is { } below)
        {
            whole.Add(below);
        }
        return new StackBlock(whole);
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

    private IEnumerable<Block> Body(
        BookletStep step,
        string number,
        StepPicture? picture,
        double width
    )
    {
        var name = "step-text:" + number;
        IEnumerable<Block> Said(string key, string text) =>
            text.Length == 0 ? [] : Text(name, Texts.Get(key, text), TextPt, width);

        return
        [
            .. Said("booklet.uses", string.Join("; ", step.Uses)),
            .. step.TimerMinutes is { } minutes
                ? Text(name, Texts.Get("booklet.timer", minutes), TextPt, width)
                : [],
            .. step.Torque is { } torque ? Torque(torque, name, width) : [],
            .. step.Check is { } check ? Check(check, name, picture, width) : [],
            .. step.Faults.SelectMany(fault => Fault(number, fault, width)),
            .. step.Leaves.SelectMany(text => Text(name, text, TextPt, width)),
            .. Said("booklet.note", step.Note),
            .. picture?.SeenAtStep is { } seen
                ? Text(name, Texts.Get("booklet.drawingAt", seen), TextPt, width)
                : [],
        ];
    }

    private IEnumerable<Block> Torque(BookletTorque torque, string name, double width) =>
        [
            new TorqueRow(torque.Target, ""),
            .. Text(
                name,
                torque.Target.Tool is { } tool
                    ? Texts.Get("booklet.treatmentTool", torque.Treatment, tool)
                    : torque.Treatment,
                TextPt,
                width
            ),
            .. torque.Target.Note is { } note ? Text(name, note, TextPt, width) : [],
        ];

    private IEnumerable<Block> Check(
        BookletCheck check,
        string name,
        StepPicture? picture,
        double width
    ) =>
        [
            .. check.Target is { } target ? Measure(check, target, picture) : [],
            .. check.Where.Length > 0
                ? Text(name, Texts.Get("booklet.where", check.Where), TextPt, width)
                : [],
            .. check.Convention.Length > 0
                ? Text(name, Texts.Get("booklet.how", check.Convention.TrimEnd('.')), TextPt, width)
                : [],
            .. check.Expected.Length > 0
                ? Ticks(
                    setting,
                    name,
                    "",
                    [Texts.Get("booklet.expected", check.Expected)],
                    TextPt,
                    width
                )
                : [],
            .. check.GoesOnRecord ? Text(name, Texts.Get("booklet.onRecord"), TextPt, width) : [],
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

    private IEnumerable<Block> Fault(string number, string fault, double width) =>
        LongText
            .Pieces(setting, Texts.Get("booklet.fault", fault), TextPt, true, width - 20)
            .Select(piece => new FramedText("fault:" + number, piece, TextPt, bold: true));

    private IEnumerable<Block> Text(
        string name,
        string text,
        double sizePt,
        double width,
        bool bold = false
    ) =>
        LongText
            .Pieces(setting, text, sizePt, bold, width)
            .Select(piece => new Paragraph(name, piece, sizePt: sizePt, bold: bold));
}
