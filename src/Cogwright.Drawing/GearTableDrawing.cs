using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>What the gear table as a drawing shows.</summary>
public sealed record GearTableDrawingOptions
{
    /// <summary>Whether the drawing names every assumed value, or points to a list on the same paper.</summary>
    public bool NamesAssumed { get; init; } = true;
}

/// <summary>
/// The gear table as a drawing: a line for each cog, a block of columns for each ring. State in words and by a mark of
/// its own shape, so that it reads in black and white. Scene millimetres are millimetres of paper.
/// </summary>
public static class GearTableDrawing
{
    private const double TextMm = 2.3;
    private const double RowMm = 7;
    private const double CogColumnMm = 12;

    // Columns of a block: mark with words, gap, cage angle, tight and loose reserve.
    private const double StateMm = 42;
    private const double NumberMm = 10.5;
    private const double BlockMm = StateMm + (4 * NumberMm);
    private const int HeadRows = 3;
    private const double MarkMm = 8;

    /// <summary>The scene.</summary>
    public static Scene Draw(GearTable table, GearTableDrawingOptions? options = null)
    {
        options ??= new GearTableDrawingOptions();
        ArgumentNullException.ThrowIfNull(table);
        var spec = table.Spec;
        var sheet = new Sheet(TextMm);
        var (rings, cogs) = (spec.Rings.Length, spec.Cogs.Teeth.Length);
        var rubbing = Rubbing.Of(table);
        var width = CogColumnMm + (rings * BlockMm);
        var bottom = -(HeadRows + cogs) * RowMm;

        Box(sheet, 0, 0, width, -HeadRows * RowMm, filled: true);
        Text(sheet, 1.5, -RowMm, Texts.Get("table.cog"), Anchor.Start, bold: true);
        for (var ring = 0; ring < rings; ring++)
        {
            var x = CogColumnMm + (ring * BlockMm);
            Head(sheet, x, spec.Rings[ring].Teeth);
        }
        for (var cog = 0; cog < cogs; cog++)
        {
            var y = -(HeadRows + cog) * RowMm;
            Text(
                sheet,
                CogColumnMm - 3,
                y,
                GearWords.Signed(spec.Cogs.Teeth[cog], "0"),
                Anchor.End,
                bold: true
            );
            for (var ring = 0; ring < rings; ring++)
            {
                Cell(
                    sheet,
                    CogColumnMm + (ring * BlockMm),
                    y,
                    spec,
                    table.Gears[(ring * cogs) + cog],
                    rubbing.GetValueOrDefault(table.Gears[(ring * cogs) + cog].Gear)
                );
            }
            if (cog > 0)
            {
                sheet.Add(new Line(0, y, width, y, Stroke.Faint));
            }
        }
        for (var ring = 0; ring < rings; ring++)
        {
            var x = CogColumnMm + (ring * BlockMm);
            sheet.Add(new Line(x, 0, x, bottom, Stroke.Frame));
        }
        Box(sheet, 0, 0, width, bottom, filled: false);

        var pitches = GearWords.Pitches(table.Pitches);
        sheet.LinesAbove([
            (spec.Name, true, Stroke.Part),
            (
                spec.RearDerailleur is null ? Texts.Get("side.chainOnly", pitches)
                : table.PreloadNm is { } preload ? Texts.Get("table.chainSprung", pitches, preload)
                : Texts.Get("side.chainFixed", pitches, GearWords.Degrees(table.BodyAngleRad)),
                false,
                Stroke.Part
            ),
        ]);
        List<string> foot = [Texts.Get("table.key")];
        if (!rubbing.IsEmpty)
        {
            foot.Add(Texts.Get("table.keyRubs"));
        }
        if (GearWords.Assumed(spec, options.NamesAssumed) is { } assumed)
        {
            foot.Add(assumed);
        }
        sheet.LinesBelow(foot);
        return sheet.Scene(Texts.Get("table.title", spec.Name), 1);
    }

    private static void Head(Sheet sheet, double x, int ringTeeth)
    {
        Text(sheet, x + 1.5, 0, Texts.Get("table.ring", ringTeeth), Anchor.Start, bold: true);
        Text(sheet, x + 1.5, -RowMm, Texts.Get("table.state"), Anchor.Start);
        string[] keys = ["table.gap", "table.cage", "table.tight", "table.loose"];
        string[] units = ["table.mm", "table.degrees", "table.mm", "table.mm"];
        for (var i = 0; i < keys.Length; i++)
        {
            Text(sheet, NumberEnd(x, i), -RowMm, Texts.Get(keys[i]), Anchor.End);
            Text(sheet, NumberEnd(x, i), -2 * RowMm, Texts.Get(units[i]), Anchor.End);
        }
    }

    private static void Cell(
        Sheet sheet,
        double x,
        double y,
        DrivetrainSpec spec,
        GearResult gear,
        Rubbing rubs
    )
    {
        var mark = Marks.For(spec, gear, rubs);
        Marks.Draw(sheet, mark, new Point(x + (MarkMm / 2), y - (RowMm / 2)));
        var words = Marks.Words(mark, spec, gear, rubs);
        State(
            sheet,
            x + MarkMm,
            y,
            spec.GearsNotUsed.Contains(gear.Gear) ? Texts.Get("table.notUsed", words) : words,
            bold: mark is not Mark.Taut,
            mark is Mark.Taut or Mark.LookAt or Mark.Rubs ? Stroke.Part : Stroke.Warning
        );
        string?[] values =
        [
            Value(gear.GapMm, "0.0"),
            Value(gear.CageAngleRad * 180 / Math.PI, "0.0"),
            Value(gear.TightMarginMm, GearWords.ReserveFormat(gear.TightMarginMm)),
            Value(gear.LooseMarginMm, GearWords.ReserveFormat(gear.LooseMarginMm)),
        ];
        for (var i = 0; i < values.Length; i++)
        {
            Text(sheet, NumberEnd(x, i), y, values[i] ?? "–", Anchor.End);
        }
    }

    /// <summary>The state in words, on two lines when one would run into the numbers.</summary>
    private static void State(
        Sheet sheet,
        double x,
        double rowTop,
        string text,
        bool bold,
        Stroke stroke
    )
    {
        // The widest number of the first column ends before the column does.
        const double room = StateMm - MarkMm;
        if (TextSize.WidthMm(text, TextMm, bold) <= room)
        {
            Text(sheet, x, rowTop, text, Anchor.Start, bold, stroke);
            return;
        }
        var cut = text.LastIndexOf(' ');
        while (cut > 0 && TextSize.WidthMm(text[..cut], TextMm, bold) > room)
        {
            cut = text.LastIndexOf(' ', cut - 1);
        }
        if (cut <= 0)
        {
            Text(sheet, x, rowTop, text, Anchor.Start, bold, stroke);
            return;
        }
        const double apart = RowMm / 4;
        Text(sheet, x, rowTop + apart, text[..cut], Anchor.Start, bold, stroke);
        Text(sheet, x, rowTop - apart, text[(cut + 1)..], Anchor.Start, bold, stroke);
    }

    private static double NumberEnd(double x, int column) =>
        x + StateMm + ((column + 1) * NumberMm) - 1.5;

    private static string? Value(double value, string format) =>
        double.IsFinite(value) ? GearWords.Signed(value, format) : null;

    private static void Text(
        Sheet sheet,
        double x,
        double rowTop,
        string text,
        Anchor anchor,
        bool bold = false,
        Stroke stroke = Stroke.Part
    ) =>
        sheet.Add(
            new Label(
                x,
                rowTop - ((RowMm + TextMm) / 2),
                text,
                TextMm,
                anchor,
                bold,
                Stroke: stroke
            )
            {
                HasHalo = false,
            }
        );

    private static void Box(
        Sheet sheet,
        double left,
        double top,
        double right,
        double bottom,
        bool filled
    ) =>
        sheet.Closed(
            [(left, top), (right, top), (right, bottom), (left, bottom)],
            Stroke.Frame,
            filled
        );
}
