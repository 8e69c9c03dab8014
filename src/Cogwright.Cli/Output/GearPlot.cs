using Cogwright.Gearing;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>
/// Set-ups one above the other on one scale of development: equal steps are equally far apart, so that gaps and doubles show.
/// A line for each ring; a cog is a stroke, one across a cross, one that is not used a point.
/// </summary>
internal static class GearPlot
{
    private const int Width = 100;

    // Marks of the scale (m): about a fifth apart.
    private static readonly double[] Marks = [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 10, 12, 15];

    internal static void Write(IAnsiConsole console, IReadOnlyList<GearSetUp> setUps)
    {
        var all = setUps.SelectMany(setUp => setUp.Ladder.Gears).ToList();
        var least = all.Min(gear => gear.DevelopmentM);
        var most = all.Max(gear => gear.DevelopmentM);
        foreach (var setUp in setUps)
        {
            Screen.Line(console, Texts.Get("gears.plot.name", setUp.Spec.Name));
            foreach (
                var ring in setUp.Ladder.Gears.GroupBy(gear => gear.Teeth.Ring).OrderBy(g => g.Key)
            )
            {
                Screen.Line(
                    console,
                    Texts.Get("gears.plot.line", ring.Key, Strokes(ring, least, most))
                );
            }
        }
        var (ticks, figures) = Scale(least, most);
        Screen.Line(console, Texts.Get("gears.plot.line", "", ticks));
        Screen.Line(console, Texts.Get("gears.plot.line", Texts.Get("gears.plot.unit"), figures));
        Screen.Line(console, Texts.Get("gears.plot.key"));
    }

    private static string Strokes(IEnumerable<LadderGear> gears, double least, double most)
    {
        var line = new char[Width];
        Array.Fill(line, '─');
        foreach (var gear in gears)
        {
            line[At(gear.DevelopmentM, least, most)] = (gear.IsUsed, gear.IsAcross) switch
            {
                (false, _) => '·',
                (_, true) => '×',
                _ => '┃',
            };
        }
        return new(line);
    }

    private static (string Ticks, string Figures) Scale(double least, double most)
    {
        var ticks = new char[Width];
        var figures = new char[Width + 4];
        Array.Fill(ticks, ' ');
        Array.Fill(figures, ' ');
        var free = 0;
        foreach (var mark in Marks)
        {
            if (mark < least || mark > most)
            {
                continue;
            }
            var at = At(mark, least, most);
            ticks[at] = '┴';
            var text = FormattableString.Invariant($"{mark:0.#}");
            if (at >= free)
            {
                text.CopyTo(figures.AsSpan(at));
                free = at + text.Length + 1;
            }
        }
        return (new(ticks), new string(figures).TrimEnd());
    }

    private static int At(double developmentM, double least, double most) =>
        most > least
            ? (int)Math.Round((Width - 1) * Math.Log(developmentM / least) / Math.Log(most / least))
            : Width / 2;
}
