namespace Cogwright.Drivetrain.Tests;

/// <summary>The bike of the model's worked example, as data for tests.</summary>
internal static class Example
{
    internal static double Rad(double degrees) => degrees * Math.PI / 180;

    internal static double Deg(double radians) => radians * 180 / Math.PI;

    internal static DrivetrainSpec Spec { get; } =
        new()
        {
            Name = "Model example",
            Frame = new() { ChainstayMm = 410, BottomBracketDropMm = 70 },
            Hanger = new(new(-8, -28)),
            Rings = [new(50, 47), new(34, 40)],
            Cogs = new()
            {
                Teeth = [11, 12, 13, 14, 15, 17, 19, 21, 24, 27, 30, 34],
                SmallestLateralMm = 64.3,
                SpacingMm = 3.6,
            },
            Chain = new() { Pitches = 110 },
            RearDerailleur = new()
            {
                BodyAngleRad = Rad(15.5),
                UpperPivotMm = new(-24.5, -24.7),
                LinkLengthMm = 57.8,
                LinkAngleRad = Rad(-47),
                SlantRad = Rad(52),
                GuideLateralAtZeroMm = 44.5,
                Cage = new()
                {
                    Guide = new(new(-10.8, 1.0), 12),
                    Tension = new(new(-4, -74), 12),
                    RearStopRad = Rad(-100),
                    FrontStopRad = Rad(62),
                },
                BodyAngleScrew = new()
                {
                    Name = "body-angle screw",
                    Moves = Moves.BodyAngle,
                    Tool = "2.5 mm hex",
                    ThreadPitchMm = 0.7,
                    LeverRadiusMm = 15,
                    TurnsLeftIn = 8,
                    TurnsLeftOut = 6,
                },
            },
        };
}
