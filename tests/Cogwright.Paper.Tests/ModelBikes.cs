using System.Collections.Immutable;
using Cogwright.Drawing;
using Cogwright.Drivetrain;
using Cogwright.Setup;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Paper.Tests;

/// <summary>Worksheets as the program makes them, from the model; the first bike is the worked example (model.md §9).</summary>
internal static class ModelBikes
{
    private static double Rad(double degrees) => degrees * Math.PI / 180;

    internal static DrivetrainSpec Double { get; } =
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

    private static DrivetrainSpec One { get; } =
        Double with
        {
            Name = "One ring",
            Rings = [new(40, 44)],
            Chain = new(),
        };

    private static DrivetrainSpec Triple { get; } =
        Double with
        {
            Name = "Three rings",
            Rings = [new(48, 52), new(38, 46), new(30, 40)],
            Cogs = Double.Cogs with { Teeth = [11, 13, 15, 17, 19, 21, 24, 28, 32] },
            Chain = new(),
        };

    private static DrivetrainSpec Single { get; } =
        new()
        {
            Name = "One gear",
            Frame = new()
            {
                ChainstayMm = 405,
                BottomBracketDropMm = 60,
                AxleTravelMm = 15,
            },
            Rings = [new(46, 42)],
            Cogs = new()
            {
                Teeth = [17],
                SmallestLateralMm = 42,
                SpacingMm = 0,
            },
            Chain = new(),
        };

    private static WorkSpec CableDouble { get; } =
        new() { FrontDerailleur = true, Gap = new(34, 34, 7.0, 0.5) };

    /// <summary>The kinds of bike by name.</summary>
    internal static ImmutableArray<(string Name, DrivetrainSpec Spec, WorkSpec Work)> All { get; } =
    [
        ("double-cable", Double, CableDouble),
        ("double-wireless", Double, CableDouble with { Actuation = Actuation.MotorWireless }),
        ("one-cable", One, new()),
        ("triple-cable", Triple, new() { FrontDerailleur = true }),
        ("single", Single, new() { Actuation = Actuation.None }),
        ("one-assisted", One, new() { Actuation = Actuation.MotorWired, Assisted = true }),
    ];

    /// <summary>What the worksheet of a bike says, and its drawings.</summary>
    internal static (WorksheetContent Content, ImmutableArray<Scene> Drawings) Sheet(
        DrivetrainSpec spec,
        WorkSpec work
    )
    {
        var choice = ChainChooser.Choose(spec);
        var table = GearTableSolver.Solve(spec, ChainChooser.PitchesFor(spec, choice));
        var content = WorksheetContent.Make(QuantityCatalogue.Of(spec, choice, table), work);
        var gear = new Gear(spec.Rings[^1].Teeth, spec.Cogs.Teeth[^1]);
        return spec.RearDerailleur is null
            ? (content, [])
            : (
                content,
                [
                    SideView.Draw(table, gear),
                    GapView.Draw(table, gear),
                    GearTableDrawing.Draw(table),
                ]
            );
    }
}
