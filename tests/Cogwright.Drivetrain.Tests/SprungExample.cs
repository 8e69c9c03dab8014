using CsCheck;
using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>The worked example's bike with a spring at its hanger bolt, and random bikes like it.</summary>
internal static class SprungExample
{
    internal static DrivetrainSpec Spec { get; } =
        With(Example.Spec, new(0.9, 0.35), new(Rad(0), Rad(40), 1.2, 1.2) { ScrewNmPerTurn = 0.1 });

    internal static DrivetrainSpec With(
        DrivetrainSpec spec,
        CageSpring spring,
        SprungMount mount
    ) =>
        spec with
        {
            RearDerailleur = spec.RearDerailleur! with
            {
                Sprung = mount,
                Cage = spec.RearDerailleur!.Cage with { Spring = spring },
            },
        };

    /// <summary>Bikes around the worked example: frame, hanger, linkage, cage and both springs each in a wide range.</summary>
    internal static Gen<DrivetrainSpec> Any { get; } = Gen.Double.Unit.Array[24].Select(Build);

    private static DrivetrainSpec Build(double[] u)
    {
        var i = 0;
        var rest = Rad(Between(-10, 20));
        var spec = Example.Spec with
        {
            Frame = new()
            {
                ChainstayMm = Between(400, 460),
                BottomBracketDropMm = Between(-10, 80),
            },
            Hanger = new(new(Between(-14, -2), Between(-34, -22))),
            Chain = new() { Pitches = 2 * (int)Between(53, 60) },
            RearDerailleur = Example.Spec.RearDerailleur! with
            {
                UpperPivotMm = new(Between(-30, -15), Between(-32, -15)),
                LinkLengthMm = Between(50, 66),
                LinkAngleRad = Rad(Between(-58, -38)),
                SlantRad = Rad(Between(40, 55)),
                BodyAngleRad = Rad(Between(5, 20)),
                Cage = Example.Spec.RearDerailleur!.Cage with
                {
                    Guide = new(new(Between(-14, -4), Between(-4, 5)), 11),
                    Tension = new(new(Between(-8, 8), -Between(60, 90)), 11),
                },
            },
        };
        return With(
            spec,
            new(Between(0.3, 1.6), Between(0.05, 0.6)),
            new(rest, rest + Rad(Between(15, 60)), Between(0, 2), Math.Exp(Between(-3, 1.5)))
        );

        double Between(double low, double high) => low + (u[i++] * (high - low));
    }
}
