using CsCheck;
using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>
/// Random gears, common and extreme: short cages, pulleys of 8 to 16 teeth, stops beyond what any part has, a pivot
/// so near the axle that guide pulley and cog overlap, worn chains.
/// </summary>
internal static class RandomMechanisms
{
    private const int Numbers = 18;

    internal static Gen<NaiveMechanism> Any { get; } =
        // The second generator likes round numbers and ends of ranges.
        Gen.OneOf(Gen.Double.Unit.Array[Numbers], Gen.Double[0, 1].Array[Numbers])
            .Select(Build)
            .Where(m => m is not null)
            .Select(m => m!);

    private static NaiveMechanism? Build(double[] u)
    {
        var i = 0;
        var elongation = Math.Max(0, Between(-0.01, 0.03));
        var pitch = 12.7 * (1 + elongation);
        var chainstay = Between(380, 480);
        var drop = Between(-20, 85);
        var axle = new Point(-Math.Sqrt((chainstay * chainstay) - (drop * drop)), drop);
        var cog = Whole(9, 53);
        var ring = Whole(22, 60);
        var tension = Whole(8, 17);
        var guide = Whole(8, 17);
        var extreme = Between(0, 1) < 0.4;
        var reach = extreme ? Between(35, 150) : Between(70, 115);
        var below = Rad(extreme ? Between(-160, -25) : Between(-125, -55));
        var pivot = axle + new Point(reach, 0).Turned(below);
        var guideOffset = new Point(Between(2, extreme ? 35 : 18), 0).Turned(
            Rad(extreme ? Between(-180, 180) : Between(20, 220))
        );
        var apart = (Radius(tension) + Radius(guide)) * Between(1.02, 3);
        var tensionOffset = guideOffset + new Point(apart, 0).Turned(Rad(Between(-135, -45)));
        var front = Rad(extreme ? Between(-30, 160) : Between(20, 80));
        var rear = front - Rad(extreme ? Between(40, 240) : Between(90, 190));
        if (Math.Abs(Radius(cog) - Radius(ring)) >= chainstay)
        {
            return null;
        }
        var gear = new NaiveMechanism
        {
            PitchMm = pitch,
            Axle = axle,
            CagePivot = pivot,
            CogTeeth = cog,
            RingTeeth = ring,
            TensionTeeth = tension,
            GuideTeeth = guide,
            TensionOffset = tensionOffset,
            GuideOffset = guideOffset,
            FrontStopRad = front,
            RearStopRad = rear,
            ChainPitches = 110,
        };
        return gear with { ChainPitches = Chain(gear, Between(-0.15, 1.15)) };

        double Between(double low, double high) => low + ((high - low) * u[i++]);
        int Whole(int low, int high) => (int)Math.Floor(Between(low, high));
        double Radius(int z) => pitch / (2 * Math.Sin(Math.PI / z));
    }

    /// <summary>A chain between (and a little beyond) the least and the most that the gear takes.</summary>
    private static double Chain(NaiveMechanism gear, double share)
    {
        var least = double.PositiveInfinity;
        var most = double.NegativeInfinity;
        for (var k = 0; k <= 40; k++)
        {
            var angle = gear.FrontStopRad + ((gear.RearStopRad - gear.FrontStopRad) * k / 40);
            if (NaiveClosure.PathPitches(gear, angle) is { } path)
            {
                least = Math.Min(least, path);
                most = Math.Max(most, path);
            }
        }
        return least > most ? gear.ChainPitches : least + ((most - least) * share);
    }
}
