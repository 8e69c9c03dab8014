using System.Collections.Immutable;

namespace Cogwright.Fastening;

/// <summary>One stop of a walk round the bike. Immutable.</summary>
/// <param name="Fastener">The fastener.</param>
/// <param name="Place">Where it is reached here.</param>
/// <param name="Figure">Its torque, marked with where it comes from.</param>
public sealed record WalkStop(Fastener Fastener, FastenerPlace Place, TorqueFigure Figure)
{
    /// <summary>
    /// Its name on a screen; of two that differ by side, with the side, and of left-hand threads that it tightens anticlockwise.
    /// </summary>
    public string Title =>
        Fastener.Places.Length == 1 ? Fastener.Title
        : Place.IsLeftHand ? Texts.Get("stop.leftHand", Fastener.Title)
        : Texts.Get($"stop.{Place.Station}", Fastener.Title);

    /// <summary>
    /// What to know of the figure: how to start without one, and of the trade's range the kinds where it differs; else null.
    /// </summary>
    public string? FigureNote =>
        Figure.Source switch
        {
            TorqueSource.None => Texts.Get("stop.noFigure", Groping.StartNm, Groping.StepNm),
            TorqueSource.TradeRange when Fastener.Ranges.Length > 1 => Texts.Get(
                "stop.kinds",
                string.Join(
                    "; ",
                    Fastener.Ranges.Select(each =>
                        Texts.Get(
                            each.Range.IsSingleFigure ? "stop.kind.one" : "stop.kind",
                            each.Title,
                            each.Range.LowerNm,
                            each.Range.UpperNm
                        )
                    )
                )
            ),
            _ => null,
        };

    /// <summary>What else to know here, the weightiest first; empty when nothing.</summary>
    public ImmutableArray<string> Notes
    {
        get
        {
            var notes = ImmutableArray.CreateBuilder<string>();
            if (Figure.Conflict is { } conflict)
            {
                notes.Add(conflict);
            }
            if (Fastener.SettingsRestOnIt)
            {
                notes.Add(Texts.Get("stop.settingsRestOnIt"));
            }
            return notes.ToImmutable();
        }
    }
}

/// <summary>
/// The walk round the bike at the end: every fastener that was disturbed, named one by one, forward along the drive side from the
/// rear axle to the bar and back along the other side. Common practice: nothing is passed twice, nothing forgotten.
/// </summary>
public static class WalkRound
{
    /// <summary>
    /// The fasteners of a set-up in the order of the walk, each once: one with two sides stands where the second is reached, since
    /// only then it is done.
    /// </summary>
    public static ImmutableArray<string> Order { get; } =
    [
        .. FastenerCatalogue
            .All.Where(fastener => Fasteners.All.Contains(fastener.Id))
            .OrderBy(fastener => fastener.Places.Max(place => place.Station))
            .Select(fastener => fastener.Id),
    ];

    /// <summary>The stops, in the order of the walk.</summary>
    /// <param name="figures">The fasteners with their torques, in any order.</param>
    /// <exception cref="ArgumentException">A fastener is not in the catalogue.</exception>
    public static ImmutableArray<WalkStop> Of(IReadOnlyDictionary<string, TorqueFigure> figures)
    {
        ArgumentNullException.ThrowIfNull(figures);
        foreach (var id in figures.Keys)
        {
            if (FastenerCatalogue.Find(id) is null)
            {
                throw new ArgumentException(Texts.Get("stop.unknown", id), nameof(figures));
            }
        }
        // Within a station the order of the catalogue; a stable sort keeps it.
        return
        [
            .. FastenerCatalogue
                .All.Where(fastener => figures.ContainsKey(fastener.Id))
                .SelectMany(fastener =>
                    fastener.Places.Select(place => new WalkStop(
                        fastener,
                        place,
                        figures[fastener.Id]
                    ))
                )
                .OrderBy(stop => stop.Place.Station),
        ];
    }

    /// <summary>What a station is called on a screen.</summary>
    public static string TitleOf(BikeStation station) => Texts.Get($"station.{station}");
}
