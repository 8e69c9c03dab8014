using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Files;
using Cogwright.Gearing;
using Cogwright.Parts;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>A ride for a person at a terminal.</summary>
internal static class RideScreen
{
    internal static void Write(IAnsiConsole console, RideOutput ride)
    {
        var result = ride.Result;
        Screen.Heading(
            console,
            Texts.Get("ride.heading", ride.Spec.Name, ride.Question.Route.Name)
        );
        Lines(console, RideWords.Road(result, ride.Question.Route));
        Lines(console, ride.Notes.Select(note => Texts.Get("ride.note", note)));
        var time = RideWords.Time(result);
        Screen.Line(console, time[0]);
        if (ride.HeldW is { } watts)
        {
            Screen.Line(console, Texts.Get("ride.held", watts, RideWords.Clock(result.TotalS)));
        }
        if (ride.HeldNote is { } held)
        {
            Screen.Line(console, Texts.Get("ride.note", held));
        }
        Lines(console, time[1..]);
        Screen.Line(console, RideWords.Steepest(result));
        if (ride.Spread is { } spread && result.Present.SteepestInLowestGearRpm is { } inLowest)
        {
            Screen.Line(
                console,
                Texts.Get(
                    "ride.lowestGear",
                    result.Present.LowestGear,
                    inLowest,
                    spread.LeastRpm,
                    spread.MostRpm
                )
            );
        }
        Lines(console, RideWords.Gears(result.Present));
        console.Write(Shares(result.Present));
        if (!ride.Beside.IsEmpty)
        {
            console.Write(
                Others(ride, Texts.Get("ride.beside"), ride.Beside, each => each.Candidate.Set.Name)
            );
            Screen.Line(console, $"{RideWords.Order} {Texts.Get("ride.beside.compat")}");
        }
        if (ride.Sets is { } sets)
        {
            Sets(console, ride, sets);
        }
        Assumed(console, ride);
    }

    private static void Sets(IAnsiConsole console, RideOutput ride, RideSets sets)
    {
        Screen.Heading(
            console,
            Texts.Get("ride.sets", string.Join(", ", ride.Replaced.Select(PartKinds.TitleOf)))
        );
        Lines(console, sets.Said());
        if (ride.FromLibrary.IsEmpty)
        {
            return;
        }
        console.Write(
            Others(
                ride,
                Texts.Get("ride.sets.gears"),
                ride.Listed,
                each => ride.NameOf(each),
                each => ride.SetOf(each)
            )
        );
        if (ride.Listed.Length < ride.FromLibrary.Length)
        {
            Screen.Line(
                console,
                Texts.Get("ride.sets.listed", ride.Listed.Length, ride.FromLibrary.Length)
            );
        }
        Screen.Line(console, RideWords.Order);
        Screen.Line(console, sets.ChainSaid);
        Screen.Line(
            console,
            Texts.Get("ride.sets.compat", With(ride.SetOf(ride.Listed[0]), ride.Replaced))
        );
        Screen.Line(console, Texts.Get("compat.caution"));
    }

    /// <summary>The options that ask <c>compat</c> of a set.</summary>
    private static string With(RideSet set, ImmutableArray<PartKind> kinds) =>
        string.Join(' ', kinds.Select(kind => $"--with {set.Option.Build[kind]!.Id}"));

    private static void Lines(IAnsiConsole console, IEnumerable<string> sentences)
    {
        foreach (var sentence in sentences)
        {
            Screen.Line(console, sentence);
        }
    }

    private static Table Shares(RideAnswer answer)
    {
        // A column for each ring, a row for each cog, the largest first: as the gears lie, low to high.
        var table = Screen.Table([
            Texts.Get("column.cog"),
            .. answer.Rings.Select(ring => Texts.Get("column.ringShare", ring.Teeth)),
            Texts.Get("column.cogShare"),
        ]);
        foreach (var cog in answer.Cogs.Reverse())
        {
            table.AddRow([
                Screen.Strong(cog.Teeth.ToString(CultureInfo.InvariantCulture)),
                .. answer.Rings.Select(ring =>
                    Share(
                        answer.Gears.Single(gear =>
                            gear.Teeth == new GearTeeth(ring.Teeth, cog.Teeth)
                        )
                    )
                ),
                Screen.Number(cog.Share * 100, 1),
            ]);
        }
        table.AddRow([
            Screen.Strong(Texts.Get("ride.ringTotal")),
            .. answer.Rings.Select(ring => Screen.Number(ring.Share * 100, 1)),
            Screen.Plain(""),
        ]);
        return table;
    }

    private static Text Share(GearShare gear) =>
        gear.Seconds == 0
            ? Screen.Faint("–")
            : new(Texts.Get(gear.IsAcross ? "ride.share.across" : "ride.share", gear.Share * 100))
            {
                Justification = Justify.Right,
            };

    /// <summary>The gears there are now and others, figure by figure.</summary>
    private static Table Others(
        RideOutput ride,
        string title,
        ImmutableArray<RideComparison> others,
        Func<RideComparison, string> name,
        Func<RideComparison, RideSet>? setOf = null
    )
    {
        var present = RideFigure.Of(ride.Result.Present);
        var table = Screen.Table([
            title,
            Texts.Get("ride.suits"),
            .. setOf is null
                ? []
                : new[] { Texts.Get("ride.sets.together"), Texts.Get("ride.sets.chain") },
            .. present.Select(figure => figure.Title),
        ]);
        table.AddRow([
            Screen.Strong(Texts.Get("ride.now", ride.Spec.Name)),
            Screen.Plain(""),
            .. setOf is null
                ? []
                : new[]
                {
                    Screen.Plain(""),
                    Screen.Number(ride.Spec.Chain.Pitches ?? double.NaN, 0),
                },
            .. present.Select(figure => Screen.Number(figure.Value ?? double.NaN, figure.Decimals)),
        ]);
        foreach (var other in others)
        {
            table.AddRow([
                Screen.Plain(name(other)),
                Screen.Plain(RideWords.Suits(other)),
                .. setOf is null
                    ? []
                    : new[]
                    {
                        Screen.Plain(Texts.Get($"compat.{setOf(other).Answer}")),
                        Screen.Number(setOf(other).Option.Pitches ?? double.NaN, 0),
                    },
                .. RideFigure.Of(other).Select(Changed),
            ]);
        }
        return table;
    }

    private static Text Changed(RideFigure figure) =>
        new(
            figure.Value is null
                ? "–"
                : Texts.Get($"ride.change{figure.Decimals}", figure.Value, figure.Change)
        )
        {
            Justification = Justify.Right,
        };

    private static void Assumed(IAnsiConsole console, RideOutput ride)
    {
        Screen.Heading(console, Texts.Get("assumed.heading"));
        foreach (var (option, value) in RideOptions.Assumed(ride.Settings))
        {
            Screen.Line(console, Texts.Get("ride.assumed", option, value));
        }
        foreach (var value in GearSets.Assumed(ride.Spec))
        {
            Screen.Line(console, Texts.Get("assumed.line", value.Path, value.Value, value.From));
        }
    }
}
