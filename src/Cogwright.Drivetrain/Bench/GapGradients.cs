using System.Collections.Immutable;

namespace Cogwright.Drivetrain.Bench;

/// <summary>How gap and guide pulley move with each free parameter: central differences through the solver.</summary>
internal static class GapGradients
{
    /// <summary>One gear's derivatives (mm per prior deviation).</summary>
    /// <param name="Gear">The gear.</param>
    /// <param name="Gap">Of the gap.</param>
    /// <param name="Forward">Of the guide pulley's place ahead of the axle.</param>
    /// <param name="Up">Of its place above the axle.</param>
    /// <param name="ScatterVariance">Variance of the gap from a cog's own tip, which no parameter describes (mm²).</param>
    internal readonly record struct Row(
        Gear Gear,
        double[] Gap,
        double[] Forward,
        double[] Up,
        double ScatterVariance
    );

    /// <summary>The rows of all gears with a pose on both sides of every difference, one parameter at a time.</summary>
    /// <returns>The number of the parameter that comes next; <paramref name="found"/> is called before the last one ends.</returns>
    internal static IEnumerable<int> Steps(
        BenchSpace space,
        double[] y,
        int pitches,
        double step,
        Action<ImmutableArray<Row>> found
    )
    {
        var n = space.Free.Length;
        var spec = space.At(y, 0, out _)!;
        var at = GearTableSolver.Solve(spec, pitches);
        var rows = at
            .Gears.Select(g => new Row(
                g.Gear,
                new double[n],
                new double[n],
                new double[n],
                space.TipScatterVariance(g.CogIndex)
            ))
            .ToArray();
        var whole = at.Gears.Select(g => g.HasPose).ToArray();
        var moved = (double[])y.Clone();
        for (var j = 0; j < n; j++)
        {
            yield return j;
            moved[j] = y[j] + step;
            var above = space.At(moved, 0, out _);
            moved[j] = y[j] - step;
            var below = space.At(moved, 0, out _);
            moved[j] = y[j];
            if (
                above is null
                || below is null
                || !SpecCheck.Problems(above).IsEmpty
                || !SpecCheck.Problems(below).IsEmpty
            )
            {
                found([]);
                yield break;
            }
            var up = GearTableSolver.Solve(above, pitches);
            var down = GearTableSolver.Solve(below, pitches);
            for (var i = 0; i < rows.Length; i++)
            {
                var (a, b) = (up.Gears[i], down.Gears[i]);
                whole[i] &= a.HasPose && b.HasPose;
                if (whole[i])
                {
                    var guide = a.Guide - up.AxlePose.Axle - (b.Guide - down.AxlePose.Axle);
                    rows[i].Gap[j] = (a.GapMm - b.GapMm) / (2 * step);
                    rows[i].Forward[j] = guide.X / (2 * step);
                    rows[i].Up[j] = guide.Y / (2 * step);
                }
            }
        }
        found([.. rows.Where((_, i) => whole[i])]);
    }

    /// <summary>How a reading moves with each free parameter (mm per prior deviation), or null where there is none.</summary>
    internal static double[]? Reading(
        BenchSpace space,
        double[] y,
        in BenchPlace place,
        double step
    )
    {
        var row = new double[y.Length];
        var moved = (double[])y.Clone();
        for (var j = 0; j < y.Length; j++)
        {
            moved[j] = y[j] + step;
            var above = BenchGeometry.Model(space, moved, place);
            moved[j] = y[j] - step;
            var below = BenchGeometry.Model(space, moved, place);
            moved[j] = y[j];
            if (above is not { } a || below is not { } b)
            {
                return null;
            }
            row[j] = (a - b) / (2 * step);
        }
        return row;
    }
}
