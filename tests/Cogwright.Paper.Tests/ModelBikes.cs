using System.Collections.Immutable;
using Cogwright.Drawing;
using Cogwright.Drivetrain;
using Cogwright.Setup;
using Cogwright.Setup.Catalogue;
using Cogwright.Setup.Tests;

namespace Cogwright.Paper.Tests;

/// <summary>Worksheets as the program makes them, from the model; the first bike is the worked example (model.md §9).</summary>
internal static class ModelBikes
{
    private static WorkSpec CableDouble { get; } =
        new() { FrontDerailleur = true, Gap = new(34, 34, 7.0, 0.5) };

    /// <summary>The kinds of bike by name.</summary>
    internal static ImmutableArray<(string Name, DrivetrainSpec Spec, WorkSpec Work)> All { get; } =
    [
        ("double-cable", Bikes.Double, CableDouble),
        ("double-wireless", Bikes.Double, CableDouble with { Actuation = Actuation.MotorWireless }),
        ("one-cable", Bikes.One, new()),
        ("triple-cable", Bikes.Triple, new() { FrontDerailleur = true }),
        ("single", Bikes.Single, new() { Actuation = Actuation.None }),
        ("one-assisted", Bikes.One, new() { Actuation = Actuation.MotorWired, Assisted = true }),
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
        var side = SideView.Draw(table, gear, new() { NamesAssumed = false });
        var gears = GearTableDrawing.Draw(table, new() { NamesAssumed = false });
        return (
            content,
            spec.RearDerailleur is null
                ? [side, gears]
                : [side, GapView.Draw(table, gear, new() { NamesAssumed = false }), gears]
        );
    }
}
