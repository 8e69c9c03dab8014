namespace Cogwright.Drivetrain.Bench;

/// <summary>
/// Distances cannot tell a figure from its mirror image: two circles meet in two points. Each start mirrors one part
/// of a solution, so that the search sees the other intersection too.
/// </summary>
internal static class MirrorStarts
{
    internal static IEnumerable<double[]> Of(BenchSpace space, double[] y)
    {
        if (space.At(y, 0, out var body) is not { } spec)
        {
            yield break;
        }
        var derailleur = spec.RearDerailleur!;
        var axle = spec.Frame.Axle;
        var hanger = spec.Hanger!.OffsetMm;

        // The hanger bolt on the other side of the line from axle to bottom bracket.
        var mirrored = Mirror(hanger, Math.Atan2(-axle.Y, -axle.X));
        yield return Moved(
            space,
            y,
            (BenchParameter.HangerX, mirrored.X),
            (BenchParameter.HangerY, mirrored.Y)
        );

        // The cage turned over.
        yield return Moved(
            space,
            y,
            (
                BenchParameter.GuideAngle,
                Near(space, BenchParameter.GuideAngle, -space.Value(y, BenchParameter.GuideAngle))
            )
        );

        // The whole parallelogram on the other side of the line from axle to hanger bolt.
        var line = Math.Atan2(hanger.Y, hanger.X) - body;
        var pivot = Mirror(derailleur.UpperPivotMm, line);
        yield return Moved(
            space,
            y,
            (BenchParameter.UpperPivotX, pivot.X),
            (BenchParameter.UpperPivotY, pivot.Y),
            (
                BenchParameter.LinkAngle,
                Near(space, BenchParameter.LinkAngle, (2 * line) - derailleur.LinkAngleRad)
            ),
            (BenchParameter.Slant, -derailleur.SlantRad)
        );

        // The tension pulley on the other side of the line from cage pivot to axle, at either stop.
        var knuckle = BenchModel.CagePivot(spec, 0, body);
        var toAxle = Math.Atan2(axle.Y - knuckle.Y, axle.X - knuckle.X);
        var tension = derailleur.Cage.Tension.OffsetMm;
        var atZero = Math.Atan2(tension.Y, tension.X);
        foreach (var stop in (BenchParameter[])[BenchParameter.RearStop, BenchParameter.FrontStop])
        {
            var angle = space.Value(y, stop);
            yield return Moved(
                space,
                y,
                (stop, Near(space, stop, (2 * (toAxle - atZero)) - angle))
            );
        }
    }

    /// <summary>The same direction, in the turn that lies nearest to the prior.</summary>
    private static double Near(BenchSpace space, BenchParameter parameter, double angleRad) =>
        space.Mean(parameter) + Math.IEEERemainder(angleRad - space.Mean(parameter), Math.Tau);

    private static Point Mirror(Point p, double lineRad)
    {
        var along = p.Turned(-lineRad);
        return new Point(along.X, -along.Y).Turned(lineRad);
    }

    private static double[] Moved(
        BenchSpace space,
        double[] y,
        params ReadOnlySpan<(BenchParameter Parameter, double Value)> changes
    )
    {
        var moved = (double[])y.Clone();
        foreach (var (parameter, value) in changes)
        {
            var place = space.Free.IndexOf(parameter);
            if (place >= 0)
            {
                moved[place] = (value - space.Mean(parameter)) / space.Deviation(parameter);
            }
        }
        return moved;
    }
}
