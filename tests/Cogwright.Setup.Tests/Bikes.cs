using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Tests;

/// <summary>Invented bikes for tests; the first is the model's worked example (model.md §9).</summary>
internal static class Bikes
{
    internal static DrivetrainSpec Double => Example.Spec;

    internal static DrivetrainSpec One { get; } =
        Double with
        {
            Name = "One ring",
            Rings = [new(40, 44)],
            Chain = new(),
        };

    internal static DrivetrainSpec Triple { get; } =
        Double with
        {
            Name = "Three rings",
            Rings = [new(48, 52), new(38, 46), new(30, 40)],
            Cogs = Double.Cogs with { Teeth = [11, 13, 15, 17, 19, 21, 24, 28, 32] },
            Chain = new(),
        };

    internal static DrivetrainSpec Single { get; } =
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

    internal static QuantityCatalogue Catalogue(DrivetrainSpec spec)
    {
        Assert.Empty(SpecCheck.Problems(spec));
        var choice = ChainChooser.Choose(spec);
        return QuantityCatalogue.Of(
            spec,
            choice,
            GearTableSolver.Solve(spec, ChainChooser.PitchesFor(spec, choice))
        );
    }

    internal static ImmutableArray<Target> Targets(DrivetrainSpec spec, WorkSpec work) =>
        TargetList.Make(Catalogue(spec), work);

    /// <summary>The work on the worked example: cable, front derailleur, the maker's gap.</summary>
    internal static WorkSpec CableDouble { get; } =
        new()
        {
            Actuation = Actuation.Cable,
            FrontDerailleur = true,
            Gap = new(34, 34, 7.0, 0.5),
        };

    internal static WorkSpec MotorDouble { get; } =
        CableDouble with
        {
            Actuation = Actuation.MotorWireless,
        };

    private static DrivetrainSpec AtRest { get; } =
        One with
        {
            RearDerailleur = One.RearDerailleur! with { RestsInboard = true },
        };

    private static DrivetrainSpec Damped { get; } =
        One with
        {
            RearDerailleur = One.RearDerailleur! with
            {
                Cage = One.RearDerailleur.Cage with
                {
                    Spring = new(0.5, 0.3),
                    Damper = new(0.2, true),
                },
            },
        };

    private static DrivetrainSpec Sprung { get; } =
        One with
        {
            RearDerailleur = One.RearDerailleur! with
            {
                Sprung = new(Example.Rad(0), Example.Rad(40), 1.2, 1.2) { ScrewNmPerTurn = 0.1 },
                Cage = One.RearDerailleur.Cage with { Spring = new(0.9, 0.35) },
            },
        };

    /// <summary>A high pivot with an idler; its travel is told as the shock's stroke.</summary>
    internal static DrivetrainSpec HighPivot { get; } =
        One with
        {
            Frame = One.Frame with
            {
                ChainstayMm = 436,
                BottomBracketDropMm = 28,
                Suspension = new()
                {
                    Linkage = new SinglePivot(new(-18, 122)),
                    TravelMm = 56,
                    TravelMeans = TravelMeaning.ShockStroke,
                    Shock = new(new(60, 300), new(-155, 240)),
                    SagFraction = 0.28,
                },
            },
            Idler = new(new(-20, 112), 16),
        };

    /// <summary>Every kind of bike that the order of work knows, by name.</summary>
    internal static ImmutableArray<(string Name, DrivetrainSpec Spec, WorkSpec Work)> All { get; } =
    [
        ("double, cable", Double, CableDouble),
        ("double, wireless", Double, MotorDouble),
        ("double, wired", Double, CableDouble with { Actuation = Actuation.MotorWired }),
        ("one ring, cable", One, new()),
        ("one ring, wireless", One, new() { Actuation = Actuation.MotorWireless }),
        ("three rings, cable", Triple, new() { FrontDerailleur = true }),
        ("one gear", Single, new() { Actuation = Actuation.None }),
        ("one ring, assisted", One, new() { Actuation = Actuation.MotorWired, Assisted = true }),
        ("on the axle", CoaxialExample.Spec, new() { Actuation = Actuation.MotorWireless }),
        ("rests inboard, cable", AtRest, new()),
        ("sprung, cable", Sprung, new()),
        ("damper", Damped, new() { Actuation = Actuation.MotorWireless, Assisted = true }),
        ("high pivot, idler", HighPivot, new()),
    ];
}
