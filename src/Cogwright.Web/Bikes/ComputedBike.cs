using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Bench;
using Cogwright.Files;
using Cogwright.Setup;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Web.Bikes;

/// <summary>What somebody tries without changing the spec. Immutable.</summary>
public sealed record Trial
{
    /// <summary>Nothing is tried.</summary>
    public static Trial None { get; } = new();

    /// <summary>Chain length (pitches), or null for the spec's or the recommended one.</summary>
    public int? Pitches { get; init; }

    /// <summary>Body angle (rad), or null for the spec's.</summary>
    public double? BodyAngleRad { get; init; }

    /// <summary>Travel of the rear end (mm), or null for sag.</summary>
    public double? TravelMm { get; init; }
}

/// <summary>A spec with everything that the model says of it. What costs time is computed when it is asked for. Immutable.</summary>
public sealed class ComputedBike
{
    private ImmutableArray<Finding>? findings;
    private QuantityCatalogue? catalogue;
    private ClearanceReport? clearances;
    private ImmutableArray<Target>? targets;

    private ComputedBike(SpecFile file, BenchFit? fit, ChainChoice choice, GearTable table)
    {
        File = file;
        Fit = fit;
        Choice = choice;
        Table = table;
    }

    /// <summary>The spec as read.</summary>
    public SpecFile File { get; }

    /// <summary>What the measurements on the bike come to, or null when it has none.</summary>
    public BenchFit? Fit { get; }

    /// <summary>The mechanism: the spec's, with the measured geometry where there is one.</summary>
    public DrivetrainSpec Spec => Table.Spec;

    /// <summary>Which chain lengths serve.</summary>
    public ChainChoice Choice { get; }

    /// <summary>All gears.</summary>
    public GearTable Table { get; }

    /// <summary>What is worth a look.</summary>
    public ImmutableArray<Finding> Findings => findings ??= Drivetrain.Findings.Of(Table);

    /// <summary>The room to spokes and frame, and the stops.</summary>
    public ClearanceReport Clearances => clearances ??= SpokeClearance.Of(Table);

    /// <summary>Its named quantities.</summary>
    public QuantityCatalogue Catalogue => catalogue ??= QuantityCatalogue.Of(Spec, Choice, Table);

    /// <summary>Every target in the order of work; empty when the work cannot be done on this bike.</summary>
    public ImmutableArray<Target> Targets =>
        targets ??= WorkCheck.Problems(Catalogue, File.Work).IsEmpty
            ? TargetList.Make(Catalogue, File.Work)
            : [];

    /// <summary>The gear in which the gap is set.</summary>
    public Gear GapGear =>
        File.Work.Gap is { } gap ? new(gap.RingTeeth, gap.CogTeeth)
        : Spec.RearDerailleur?.Coaxial is { } mount ? mount.SetUpGear(Spec)
        : new(Spec.Rings.Min(ring => ring.Teeth), Spec.Cogs.Teeth[^1]);

    /// <summary>Computes a bike.</summary>
    /// <param name="file">The spec.</param>
    /// <param name="trial">What is tried on it.</param>
    public static ComputedBike Of(SpecFile file, Trial? trial = null)
    {
        ArgumentNullException.ThrowIfNull(file);
        var fit = file.Drivetrain.Measured is { Readings.IsEmpty: false }
            ? BenchGeometry.Fit(file.Drivetrain)
            : null;
        var choice = ChainChooser.Choose(fit?.Spec ?? file.Drivetrain);
        return new ComputedBike(file, fit, choice, null!).With(
            trial ?? Trial.None,
            fit?.Spec ?? file.Drivetrain
        );
    }

    /// <summary>The same bike with something tried on it: one gear table, the chain choice is kept.</summary>
    public ComputedBike With(Trial trial)
    {
        ArgumentNullException.ThrowIfNull(trial);
        return With(trial, Fit?.Spec ?? File.Drivetrain);
    }

    private ComputedBike With(Trial trial, DrivetrainSpec spec)
    {
        if (trial.Pitches is { } pitches)
        {
            spec = spec with { Chain = spec.Chain with { Pitches = pitches } };
        }
        var table = GearTableSolver.Solve(
            spec,
            ChainChooser.PitchesFor(spec, Choice),
            spec.RearDerailleur?.Sprung is null ? trial.BodyAngleRad : null,
            trial.TravelMm
        );
        return new(File, Fit, Choice, table);
    }
}
