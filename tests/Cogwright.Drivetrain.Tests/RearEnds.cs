using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>Suspended rear ends for tests: the shapes of trail bikes, all invented.</summary>
internal static class RearEnds
{
    internal static Frame Rigid { get; } = new() { ChainstayMm = 438, BottomBracketDropMm = 32 };

    internal static SinglePivot Pivot { get; } = new(new(20, 60));

    internal static FourBar Links { get; } =
        new(new(-20, 70), new(-385, 45), new(-50, 330), new(-120, 290));

    internal static Frame OnPivot { get; } =
        Rigid with
        {
            Suspension = new()
            {
                Linkage = Pivot,
                TravelMm = 140,
                SagFraction = 0.3,
            },
        };

    internal static Frame OnLinks { get; } =
        Rigid with
        {
            Suspension = new()
            {
                Linkage = Links,
                TravelMm = 140,
                SagFraction = 0.3,
            },
        };

    /// <summary>A pivot far above the bottom bracket: the axle moves rearward.</summary>
    internal static Frame HighPivot { get; } =
        Rigid with
        {
            Suspension = new() { Linkage = new SinglePivot(new(-25, 165)), TravelMm = 160 },
        };

    internal static Idler Over { get; } = new(new(-28, 150), 16);

    /// <summary>A 1×12 trail bike on a frame.</summary>
    internal static DrivetrainSpec Trail(Frame frame, Idler? idler = null) =>
        Spec with
        {
            Name = "Trail",
            Frame = frame,
            Hanger = new(new(-11, -28)),
            Rings = [new(32, 52)],
            Cogs = new()
            {
                Teeth = [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51],
                SmallestLateralMm = 71,
                SpacingMm = 3.6,
            },
            Chain = new() { Pitches = 118 },
            Idler = idler,
            RearDerailleur = Spec.RearDerailleur! with
            {
                BodyAngleRad = Rad(18),
                UpperPivotMm = new(-22, -39),
                LinkLengthMm = 69,
                LinkAngleRad = Rad(-41),
                SlantRad = Rad(59),
                GuideLateralAtZeroMm = 51.2,
                Cage = Spec.RearDerailleur.Cage with
                {
                    Guide = new(new(-22, 0), 13),
                    Tension = new(new(-4, -92), 13),
                },
            },
        };
}
