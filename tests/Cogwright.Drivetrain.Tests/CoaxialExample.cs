using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>An invented 1×12 mountain bike whose derailleur sits on the axle.</summary>
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
                SmallestLateralMm = 66.9,
                SpacingMm = 3.58,
            },
            Chain = new() { Pitches = 120 },
            RearDerailleur = new()
            {
                BodyAngleRad = 0,
                UpperPivotMm = new(-36.5, -61),
                LinkLengthMm = 71.3,
                LinkAngleRad = Rad(-63.5),
                SlantRad = Rad(55.9),
                GuideLateralAtZeroMm = 47.2,
                LeastGapMm = 1,
                Cage = new()
                {
                    Guide = new(new(-17.6, 28.6), 14, 62.2),
                    Tension = new(new(-16.1, -86.6), 14),
                    RearStopRad = Rad(-100),
                    FrontStopRad = Rad(75),
                },
                Coaxial = new() { SetUpCogTeeth = 21, CageAtSetUpRad = Rad(-2) },
            },
            Shifting = new()
            {
                PositionsMm =
                [
                    66.9,
                    63.3,
                    59.7,
                    56.2,
                    52.6,
                    49,
                    45.4,
                    41.8,
                    38.3,
                    34.7,
                    31.1,
                    27.5,
                ],
                OffsetStepMm = 0.1,
            },
        };

    internal static DrivetrainSpec With(Func<CoaxialMount, CoaxialMount> change) =>
        With(derailleur => derailleur with { Coaxial = change(derailleur.Coaxial!) });

    internal static DrivetrainSpec With(Func<RearDerailleur, RearDerailleur> change) =>
        Spec with
        {
            RearDerailleur = change(Spec.RearDerailleur!),
        };

    /// <summary>A commuter with eight cogs whose derailleur rests inboard; pull 2.8 mm and ratio 1.7 against 4.8 mm from cog to cog.</summary>
    internal static DrivetrainSpec AtRest(bool inboard = true, int clicks = 7) =>
        Example.Spec with
        {
            Name = "At rest inboard",
            Rings = [new(42, 45)],
            Chain = new(),
            Cogs = new()
            {
                Teeth = [11, 13, 15, 17, 20, 23, 26, 32],
                SmallestLateralMm = 62.5,
                SpacingMm = 4.8,
            },
            RearDerailleur = Example.Spec.RearDerailleur! with { RestsInboard = inboard },
            Shifting = new() { PullMm = [.. Enumerable.Repeat(2.8, clicks)], ShiftRatio = 1.7 },
        };
}
