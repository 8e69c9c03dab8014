using System.Globalization;
using Cogwright.Gearing;

namespace Cogwright.Drawing;

/// <summary>
/// Set-ups one above the other on one scale of development: equal steps are equally far apart, so that gaps, doubles and the
/// reach of each ring show at a glance. A gear is a stroke, with a box round it as wide as the tyre's spread; one across has a cross on
/// its stroke, one that is not used a circle and no stroke. Scene millimetres are millimetres of paper.
/// </summary>
public static class GearLadderDrawing
{
    private const double TextMm = 2.3;
    private const double WidthMm = 200;
    private const double LaneMm = 12;
    private const double NameMm = 9;
    private const double StrokeMm = 5;
    private const double CrossMm = 1.4;

    // Marks of the two scales: about a fifth apart.
    private static readonly double[] Metres =
    [
        0.5,
        0.6,
        0.8,
        1,
        1.2,
        1.5,
        2,
        2.5,
        3,
        4,
        5,
        6,
        7,
        8,
        10,
        12,
        15,
        20,
    ];
    private static readonly double[] KmPerHour =
    [
        3,
        4,
        5,
        6,
        8,
        10,
        12,
        15,
        20,
        25,
        30,
        35,
        40,
        50,
        60,
        80,
        100,
    ];

    /// <summary>The scene.</summary>
    /// <param name="ladders">The set-ups, at least one; the first stands on top.</param>
    /// <param name="rpm">The cadence of the scale of speeds (rpm, more than 0, at most 300).</param>
    /// <exception cref="ArgumentException">There is no set-up.</exception>
    public static Scene Draw(IReadOnlyList<GearLadder> ladders, double rpm = 90)
    {
        ArgumentNullException.ThrowIfNull(ladders);
        ArgumentOutOfRangeException.ThrowIfZero(ladders.Count, nameof(ladders));
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(rpm);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(rpm, GearMeasures.MostRpm);
        var scale = Scale.Of(ladders);
        var sheet = new Sheet(TextMm);
        var y = 0.0;
        foreach (var ladder in ladders)
        {
            sheet.Add(new Label(0, y, Head(ladder), TextMm, Bold: true));
            y -= NameMm;
            for (var ring = 0; ring < ladder.Set.Rings.Length; ring++)
            {
                Lane(sheet, ladder, ring, y, scale);
                y -= LaneMm;
            }
            y -= 0.5 * TextMm;
        }
        Ticks(sheet, scale, y, Metres, 1, Texts.Get("ladder.metres"));
        Ticks(
            sheet,
            scale,
            y - (4.5 * TextMm),
            KmPerHour,
            60 / (3.6 * rpm),
            Texts.Get("ladder.speed", rpm)
        );
        sheet.LinesBelow([Texts.Get("ladder.key")]);
        return sheet.Scene(
            Texts.Get("ladder.title", string.Join(", ", ladders.Select(ladder => ladder.Set.Name))),
            1
        );
    }

    private static string Head(GearLadder ladder) =>
        Texts.Get(
            "ladder.head",
            ladder.Set.Name,
            ladder.Tyre.Designation,
            ladder.Lowest.Teeth,
            ladder.Highest.Teeth,
            ladder.Range * 100
        );

    private static void Lane(Sheet sheet, GearLadder ladder, int ring, double y, Scale scale)
    {
        sheet.Line(new(0, y), new(WidthMm, y), Stroke.Faint);
        sheet.Add(
            new Label(
                -2,
                y - (0.5 * TextMm),
                Whole(ladder.Set.Rings[ring]),
                TextMm,
                Anchor.End,
                Bold: true
            )
        );
        foreach (var gear in ladder.Gears.Where(gear => gear.RingIndex == ring))
        {
            var x = scale.At(gear.DevelopmentM);
            if (gear.IsUsed)
            {
                Spread(sheet, gear, y, scale);
                sheet.Line(new(x, y - (StrokeMm / 2)), new(x, y + (StrokeMm / 2)), Stroke.Part);
            }
            else
            {
                sheet.Circle(new(x, y), CrossMm, Stroke.Faint);
            }
            if (gear.IsAcross)
            {
                sheet.Line(
                    new(x - CrossMm, y - CrossMm),
                    new(x + CrossMm, y + CrossMm),
                    Stroke.Warning
                );
                sheet.Line(
                    new(x - CrossMm, y + CrossMm),
                    new(x + CrossMm, y - CrossMm),
                    Stroke.Warning
                );
            }
            sheet.Add(
                new Label(
                    x,
                    y + (StrokeMm / 2) + (0.4 * TextMm),
                    Whole(gear.Teeth.Cog),
                    0.9 * TextMm,
                    Anchor.Middle
                )
            );
        }
    }

    private static void Spread(Sheet sheet, LadderGear gear, double y, Scale scale)
    {
        var left = scale.At(gear.LeastDevelopmentM);
        var right = scale.At(gear.MostDevelopmentM);
        const double half = StrokeMm / 5;
        sheet.Closed(
            [(left, y - half), (right, y - half), (right, y + half), (left, y + half)],
            Stroke.Dimension
        );
    }

    /// <summary>A scale of marks; a mark stands at the development that is so many times its figure.</summary>
    private static void Ticks(
        Sheet sheet,
        Scale scale,
        double y,
        double[] marks,
        double metresPerMark,
        string unit
    )
    {
        sheet.Line(new(0, y), new(WidthMm, y), Stroke.Frame);
        var free = double.NegativeInfinity;
        foreach (var mark in marks)
        {
            var x = scale.At(mark * metresPerMark);
            if (x < 0 || x > WidthMm)
            {
                continue;
            }
            sheet.Line(new(x, y), new(x, y - 1), Stroke.Frame);
            var text = mark.ToString("0.#", CultureInfo.InvariantCulture);
            var half = TextSize.WidthMm(text, TextMm) / 2;
            if (x - half > free)
            {
                sheet.Add(new Label(x, y - 1 - (1.4 * TextMm), text, TextMm, Anchor.Middle));
                free = x + half + TextMm;
            }
        }
        sheet.Add(new Label(WidthMm + 2, y - (0.5 * TextMm), unit, TextMm));
    }

    private static string Whole(int number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>From development to paper.</summary>
    private readonly record struct Scale(double LogLeast, double MmPerLog)
    {
        internal static Scale Of(IReadOnlyList<GearLadder> ladders)
        {
            var all = ladders.SelectMany(ladder => ladder.Gears).ToList();
            // A margin at both ends, and something to show where there is but one gear.
            var least = Math.Log(all.Min(gear => gear.LeastDevelopmentM)) - 0.03;
            var most = Math.Log(all.Max(gear => gear.MostDevelopmentM)) + 0.03;
            return new(least, WidthMm / (most - least));
        }

        internal double At(double developmentM) => (Math.Log(developmentM) - LogLeast) * MmPerLog;
    }
}
