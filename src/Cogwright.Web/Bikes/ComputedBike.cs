using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Bench;
using Cogwright.Files;
using Cogwright.Setup;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Web.Bikes;

/// <summary>A spec with everything that the model says of it. What costs time is computed when it is asked for. Immutable.</summary>
public sealed class ComputedBike
{
    private ImmutableArray<Finding>? findings;
    private QuantityCatalogue? catalogue;
    private ClearanceReport? clearances;
    private ImmutableArray<Target>? targets;

    private ComputedBike(
        SpecFile file,
        BenchFit? fit,
        ChainChoice choice,
        GearTable table,
        Trial trial
    )
    {
        Trial = trial;
        File = file;
        Fit = fit;
        Choice = choice;
        Table = table;
    }

    /// <summary>What is tried on it.</summary>
    public Trial Trial { get; }

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

    /// <summary>
    /// The room to spokes and frame, and the stops. Whatever is tried comes after what was measured on the bike: a
    /// measured room is not known with it.
    /// </summary>
    public ClearanceReport Clearances =>
        clearances ??= SpokeClearance.Of(
            Table,
            Trial.Tilt,
            movedSinceMeasured: Trial != Trial.None
        );

    /// <summary>Its named quantities.</summary>
    public QuantityCatalogue Catalogue => catalogue ??= QuantityCatalogue.Of(Spec, Choice, Table);

    /// <summary>Every target in the order of work; empty when the work cannot be done on this bike.</summary>
    public ImmutableArray<Target> Targets =>
        targets ??= WorkCheck.Problems(Catalogue, File.Work).IsEmpty
            ? TargetList.Make(Catalogue, File.Work)
            : [];

    /// <summary>The gear in which the gap is set.</summary>
    public Gear GapGear =>
        File.Work.Gap is { } gap ? Trial.Named(new(gap.RingTeeth, gap.CogTeeth), File.Drivetrain)
        : Spec.RearDerailleur?.Coaxial is { } mount ? mount.SetUpGear(Spec)
        : new(Spec.Rings.Min(ring => ring.Teeth), Spec.Cogs.Teeth[^1]);

    /// <summary>Computes a bike.</summary>
    /// <param name="file">The spec.</param>
    /// <param name="trial">What is tried on it.</param>
    public static ComputedBike Of(SpecFile file, Trial? trial = null)
    {
        ArgumentNullException.ThrowIfNull(file);
        return Of(file, IsMeasured(file) ? BenchGeometry.Fit(file.Drivetrain) : null, trial);
    }

    /// <summary>Whether the geometry of a bike is found from measurements, which takes seconds in a browser.</summary>
    internal static bool IsMeasured(SpecFile file) =>
        file.Drivetrain.Measured is { Readings.IsEmpty: false };

    /// <summary>Computes a bike whose measurements are fitted already.</summary>
    /// <param name="file">The spec.</param>
    /// <param name="fit">What its measurements come to, or null when it has none.</param>
    /// <param name="trial">What is tried on it.</param>
    internal static ComputedBike Of(SpecFile file, BenchFit? fit, Trial? trial = null)
    {
        var choice = ChainChooser.Choose(fit?.Spec ?? file.Drivetrain);
        return new ComputedBike(file, fit, choice, null!, Trial.None).With(trial ?? Trial.None);
    }

    /// <summary>The same bike with something tried on it: one gear table, the chain choice is kept.</summary>
    public ComputedBike With(Trial trial)
    {
        ArgumentNullException.ThrowIfNull(trial);
        var spec = trial.On(Fit?.Spec ?? File.Drivetrain);
        var pitches = ChainChooser.PitchesFor(spec, Choice);
        // The choice ends with the gears at the recommended length: those of the bike as it is need no second solving.
        var table =
            trial == Trial.None && Choice.Table is { } chosen && chosen.Pitches == pitches
                ? chosen
                : GearTableSolver.Solve(spec, pitches, trial.BodyAngleRad, trial.TravelMm);
        return new(File, Fit, Choice, table, trial);
    }

    /// <summary>One gear with something tried: what a drawing needs while a hand turns a screw.</summary>
    /// <param name="trial">What is tried.</param>
    /// <param name="gear">The gear.</param>
    public GearTable Moving(Trial trial, Gear gear)
    {
        ArgumentNullException.ThrowIfNull(trial);
        var spec = trial.On(Fit?.Spec ?? File.Drivetrain);
        return GearTableSolver.SolveOne(
            spec,
            ChainChooser.PitchesFor(spec, Choice),
            gear,
            trial.BodyAngleRad,
            trial.TravelMm
        );
    }
}
