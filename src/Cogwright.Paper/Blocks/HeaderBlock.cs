namespace Cogwright.Paper.Blocks;

/// <summary>In one row: bike and gearing at the left, the boxes for date, job and people at the right.</summary>
internal sealed class HeaderBlock(string bikeName, string gearing, string date) : Block
{
    /// <summary>The record's name of the block.</summary>
    internal const string BlockName = "header";

    private const double Height = 28.2;
    private const double FieldPt = 11;
    private const double SideNumberPt = 52;
    private static readonly double[] NameSizes = [16, 14.5, 13, 11.5, 10];

    private static readonly (string Key, double WidthMm)[] Fields =
    [
        ("sheet.date", 24),
        ("sheet.jobNumber", 20),
        ("sheet.mechanic", 28),
        ("sheet.checkedBy", 25),
    ];

    /// <inheritdoc/>
    internal override string Name => BlockName;

    /// <summary>Where the number of the side stands on a page.</summary>
    internal static PaperBox SideNumber(PaperBox page)
    {
        var right = FieldsLeft(page.Right) - 4;
        var line = Setting.Line(Setting.SmallPt);
        return new PaperBox(right - SideNumberPt, page.Top + Height - line, SideNumberPt, line);
    }

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) => Height;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var left = FieldsLeft(box.Right);
        DrawName(setting, sheet, box with { Width = left - 4 - box.Left });
        foreach (var (key, widthMm) in Fields)
        {
            var field = new PaperBox(left, box.Top, Points.FromMm(widthMm), Height);
            sheet.Frame(field);
            var line = Setting.Line(Setting.SmallPt);
            sheet.Print(
                Texts.Get(key),
                new PaperBox(left + 2.5, field.Top + 1, field.Width - 4, line),
                Setting.SmallPt
            );
            if (key == "sheet.date")
            {
                sheet.Print(
                    date,
                    field with
                    {
                        Left = left + 2.5,
                        Width = field.Width - 4,
                        Top = field.Top + line,
                        Height = Height - line,
                    },
                    FieldPt
                );
            }
            left += field.Width;
        }
    }

    private void DrawName(Setting setting, Sheet sheet, PaperBox box)
    {
        var small = Setting.Line(Setting.SmallPt);
        var name = box with { Height = Height - small };
        var size = Array.Find(
            NameSizes,
            each => setting.Fit.Width(bikeName, each, true) <= box.Width
        );
        if (size > 0)
        {
            sheet.Print(bikeName, name, size, bold: true);
        }
        else
        {
            // On two lines, the second shortened; they just fit above the gearing.
            sheet.PrintLines(
                setting.Fit.Wrap(bikeName, Setting.SmallPt, true, box.Width, mostLines: 2),
                box.Left,
                box.Top,
                box.Width,
                Setting.SmallPt,
                bold: true
            );
        }
        sheet.Print(
            gearing,
            box with
            {
                Top = box.Top + Height - small,
                Height = small,
                Width = box.Width - SideNumberPt - 4,
            },
            Setting.SmallPt
        );
    }

    private static double FieldsLeft(double right)
    {
        var width = 0.0;
        foreach (var (_, widthMm) in Fields)
        {
            width += Points.FromMm(widthMm);
        }
        return right - width;
    }
}
