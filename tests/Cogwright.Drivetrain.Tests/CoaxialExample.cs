using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>An invented 1×12 mountain bike with the derailleur on the axle.</summary>
internal static class CoaxialExample
{
    internal static DrivetrainSpec Spec { get; } =
        new()
        {
            Name = "On the axle",
            Frame = new() { ChainstayMm = 438, BottomBracketDropMm = 32 },
            Rings = [new(32, 52)],
            Cogs = new()
            {
                Teeth = [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51],
                SmallestLateralMm = 66.3,
                SpacingMm = 3.65,
            },
            Chain = new() { Pitches = 122 },
            RearDerailleur = new()
            {
                BodyAngleRad = 0,
                UpperPivotMm = new(-20, -62),
                LinkLengthMm = 64,
                LinkAngleRad = Rad(-62),
                SlantRad = Rad(60),
                GuideLateralAtZeroMm = 46.2,
                Cage = new()
                {
                    Guide = new(new(-14, 16), 14),
                    Tension = new(new(-6, -88), 14),
                    RearStopRad = Rad(-100),
                    FrontStopRad = Rad(75),
                },
                Coaxial = new() { SetUpCogTeeth = 21, CageAtSetUpRad = Rad(20) },
            },
        };

    internal static DrivetrainSpec With(Func<CoaxialMount, CoaxialMount> change) =>
        Spec with
        {
            RearDerailleur = Spec.RearDerailleur! with
            {
                Coaxial = change(Spec.RearDerailleur.Coaxial!),
            },
        };
}
