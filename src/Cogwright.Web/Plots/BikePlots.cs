using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Web.Bikes;

namespace Cogwright.Web.Plots;

/// <summary>The plots of a bike: what changes from cog to cog, and over the travel where there is any.</summary>
internal static class BikePlots
{
    private const int TravelSteps = 24;
    private const double Degrees = 180 / Math.PI;

    /// <summary>All plots that this bike has figures for.</summary>
    internal static ImmutableArray<Plot> Of(ComputedBike bike)
    {
        ArgumentNullException.ThrowIfNull(bike);
        var plots = ImmutableArray.CreateBuilder<Plot>();
        if (bike.Spec.RearDerailleur is { } derailleur)
        {
            plots.Add(
                OverCogs(bike, "gap", gear => gear.GapMm) with
                {
                    Limits = [(Texts.Get("plots.gap.limit"), derailleur.LeastGapMm)],
                }
            );
            plots.Add(OverCogs(bike, "cage", gear => gear.CageAngleRad * Degrees));
        }
        if (Indexing.Of(bike.Spec) is { Cogs.Length: > 1 } indexing)
        {
            plots.Add(Residual(indexing));
        }
        if (bike.Spec.Frame.Suspension is not null)
        {
            plots.AddRange(OverTravel(bike));
        }
        return plots.ToImmutable();
    }

    private static Plot OverCogs(ComputedBike bike, string id, Func<GearResult, double> figure)
    {
        var spec = bike.Spec;
        var cogs = spec.Cogs.Teeth;
        ImmutableArray<PlotLine> lines =
        [
            .. spec
                .Rings.OrderByDescending(ring => ring.Teeth)
                .Select(ring => new PlotLine(
                    Texts.Get("plots.ring", ring.Teeth),
                    [
                        .. cogs.Select(
                            (teeth, i) =>
                                new PlotPoint(
                                    i,
                                    Finite(figure(bike.Table.Find(new(ring.Teeth, teeth))!.Value))
                                )
                        ),
                    ]
                )),
        ];
        ImmutableArray<string> labels = [.. cogs.Select(teeth => Texts.Get("plots.teeth", teeth))];
        return new()
        {
            Id = id,
            Title = Texts.Get($"plots.{id}.title"),
            XTitle = Texts.Get("plots.cogs"),
            YTitle = Texts.Get($"plots.{id}.unit"),
            Lines = lines,
            XLabels = labels,
            Summary = Summary(id, lines, x => Texts.Get("plots.onCog", labels[(int)x])),
        };
    }

    private static Plot Residual(IndexingResult indexing)
    {
        ImmutableArray<PlotLine> lines =
        [
            new(
                Texts.Get("plots.residual.line"),
                [.. indexing.Cogs.Select((cog, i) => new PlotPoint(i, cog.ResidualMm))]
            ),
        ];
        ImmutableArray<string> labels =
        [
            .. indexing.Cogs.Select(cog => Texts.Get("plots.teeth", cog.Teeth)),
        ];
        return new()
        {
            Id = "residual",
            Title = Texts.Get("plots.residual.title"),
            XTitle = Texts.Get("plots.cogs"),
            YTitle = Texts.Get("plots.residual.unit"),
            Lines = lines,
            XLabels = labels,
            Format = "0.00",
            Limits =
            [
                (Texts.Get("plots.residual.limit"), indexing.LimitMm),
                (Texts.Get("plots.residual.limit"), -indexing.LimitMm),
            ],
            Summary = Texts.Get(
                indexing.AllFine ? "plots.residual.fine" : "plots.residual.bad",
                indexing.GreatestResidualMm,
                indexing.LimitMm
            ),
        };
    }

    private static IEnumerable<Plot> OverTravel(ComputedBike bike)
    {
        if (bike.Spec.RearDerailleur is null)
        {
            yield break;
        }
        var ring = bike.Spec.Rings.Max(r => r.Teeth);
        var cogs = bike.Spec.Cogs.Teeth;
        Gear[] gears = [new(ring, cogs[^1]), new(ring, cogs[cogs.Length / 2]), new(ring, cogs[0])];
        var sweep = TravelSweep.Of(
            bike.Spec,
            gears,
            bike.Table.Pitches,
            TravelSteps,
            bike.Table.BodyAngleRad
        );
        var isStroke = bike.Spec.Frame.Suspension?.TravelMeans == TravelMeaning.ShockStroke;
        yield return Swept(
            "growth",
            sweep,
            isStroke,
            [(Texts.Get("plots.growth.line"), Along(sweep.TravelMm, sweep.GrowthMm))]
        );
        var reserve = new List<(string, ImmutableArray<PlotPoint>)>();
        var gap = new List<(string, ImmutableArray<PlotPoint>)>();
        for (var g = 0; g < gears.Length; g++)
        {
            var name = Texts.Get("plots.gear", gears[g].RingTeeth, gears[g].CogTeeth);
            var from = g * sweep.Positions;
            reserve.Add(
                (name, Along(sweep.TravelMm, sweep.TightMarginMm.Slice(from, sweep.Positions)))
            );
            gap.Add((name, Along(sweep.TravelMm, sweep.GapMm.Slice(from, sweep.Positions))));
        }
        yield return Swept("travelGap", sweep, isStroke, gap) with
        {
            Limits = [(Texts.Get("plots.gap.limit"), bike.Spec.RearDerailleur.LeastGapMm)],
        };
        yield return Swept("travelTight", sweep, isStroke, reserve);
    }

    private static Plot Swept(
        string id,
        TravelSweep sweep,
        bool isStroke,
        List<(string Name, ImmutableArray<PlotPoint> Points)> lines
    )
    {
        ImmutableArray<PlotLine> drawn =
        [
            .. lines.Select(line => new PlotLine(line.Name, line.Points)),
        ];
        return new()
        {
            Id = id,
            Title = Texts.Get($"plots.{id}.title"),
            XTitle = Texts.Get(isStroke ? "plots.stroke" : "plots.travel", sweep.TravelMm[^1]),
            YTitle = Texts.Get($"plots.{id}.unit"),
            Lines = drawn,
            Summary = Summary(
                id,
                drawn,
                x => Texts.Get(isStroke ? "plots.atStroke" : "plots.atTravel", x)
            ),
        };
    }

    private static ImmutableArray<PlotPoint> Along(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        var points = ImmutableArray.CreateBuilder<PlotPoint>(x.Length);
        for (var i = 0; i < x.Length; i++)
        {
            points.Add(new(x[i], Finite(y[i])));
        }
        return points.MoveToImmutable();
    }

    /// <summary>The least and the greatest figure, each with its line and place.</summary>
    private static string Summary(
        string id,
        ImmutableArray<PlotLine> lines,
        Func<double, string> place
    )
    {
        var all = lines
            .SelectMany(line =>
                line.Points.Where(p => p.Y is not null).Select(p => (line.Name, p.X, Y: p.Y!.Value))
            )
            .ToList();
        if (all.Count == 0)
        {
            return Texts.Get("plots.nothing");
        }
        var (least, most) = (all.MinBy(p => p.Y), all.MaxBy(p => p.Y));
        var missing = lines.Sum(line => line.Points.Count(p => p.Y is null));
        var words = Texts.Get(
            $"plots.{id}.summary",
            least.Y,
            least.Name,
            place(least.X),
            most.Y,
            most.Name,
            place(most.X)
        );
        return missing == 0 ? words : $"{words} {Texts.Get("plots.missing", missing)}";
    }

    private static double? Finite(double value) => double.IsFinite(value) ? value : null;
}
