using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>
/// A chain path as something to walk along, pitch by pitch, in the sense of motion from where the chain meets the cog.
/// On a run one pitch is one pitch; on a sprocket it is one tooth, the angle 2π/z.
/// </summary>
internal sealed class ChainTrace
{
    private readonly ImmutableArray<OrientedSprocket> _sprockets;
    private readonly ChainPath _path;
    private readonly double _pitchMm;
    private readonly double[] _wrapStart;

    internal ChainTrace(IEnumerable<OrientedSprocket> sprockets, ChainPath path, double pitchMm)
    {
        _sprockets = [.. sprockets];
        _path = path;
        _pitchMm = pitchMm;
        _wrapStart = new double[_sprockets.Length];
        var at = 0.0;
        for (var i = 0; i < _sprockets.Length; i++)
        {
            _wrapStart[i] = at;
            at += path.Wraps[i].Teeth + (path.Runs[i].LengthMm / pitchMm);
        }
    }

    /// <summary>Where the roller stands that lies that many pitches along the path.</summary>
    internal Point At(double pitches)
    {
        for (var i = _sprockets.Length - 1; i >= 0; i--)
        {
            var along = pitches - _wrapStart[i];
            if (along < 0)
            {
                continue;
            }
            var wrap = _path.Wraps[i];
            if (along <= wrap.Teeth)
            {
                return OnSprocket(i, along);
            }
            var run = _path.Runs[i];
            var part = Math.Min((along - wrap.Teeth) * _pitchMm / run.LengthMm, 1);
            return new(
                run.Start.X + (part * (run.End.X - run.Start.X)),
                run.Start.Y + (part * (run.End.Y - run.Start.Y))
            );
        }
        return OnSprocket(0, 0);
    }

    /// <summary>The rollers of a chain of that many pitches, in order.</summary>
    internal ImmutableArray<Point> Rollers(int pitches) =>
        [.. Enumerable.Range(0, pitches).Select(i => At(i))];

    /// <summary>Points along the whole path, evenly in pitches, as x and y in turn; allocates nothing.</summary>
    internal void Fill(Span<double> points)
    {
        var count = points.Length / 2;
        var step = _path.Pitches / count;
        for (var i = 0; i < count; i++)
        {
            var at = At(i * step);
            points[2 * i] = at.X;
            points[(2 * i) + 1] = -at.Y;
        }
    }

    /// <summary>Angle (rad) of a tooth gap of a sprocket in which a roller of the chain lies.</summary>
    internal double GapAngleRad(int sprocket)
    {
        var firstAlong = Math.Ceiling(_wrapStart[sprocket]) - _wrapStart[sprocket];
        return AngleOn(sprocket, firstAlong);
    }

    private Point OnSprocket(int sprocket, double along)
    {
        var centre = _sprockets[sprocket].Centre;
        var radius = Sprocket.PitchRadiusMm(_sprockets[sprocket].Teeth, _pitchMm);
        var (sin, cos) = Math.SinCos(AngleOn(sprocket, along));
        return new(centre.X + (radius * cos), centre.Y + (radius * sin));
    }

    private double AngleOn(int sprocket, double along) =>
        _path.Wraps[sprocket].StartRad
        - (_sprockets[sprocket].Sense * along * Math.Tau / _sprockets[sprocket].Teeth);
}
