using System.Collections.Immutable;
using Cogwright.Cli.Output;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Bench;
using Cogwright.Files;
using Cogwright.Setup;
using Cogwright.Setup.Catalogue;
using Spectre.Console;

namespace Cogwright.Cli;

/// <summary>Where the chain length of a run comes from.</summary>
internal enum PitchesFrom
{
    /// <summary>The spec says it.</summary>
    Spec,

    /// <summary>The command line says it.</summary>
    Option,

    /// <summary>The spec leaves it open: the recommended length is used.</summary>
    Recommended,

    /// <summary>The spec leaves it open and no length serves: the bench rule's is used.</summary>
    BenchRule,
}

/// <summary>A spec that was read, with its chain choice and its gear table.</summary>
internal sealed record Bike(
    DrivetrainSpec Spec,
    WorkSpec Work,
    ChainChoice Choice,
    GearTable Table,
    PitchesFrom PitchesFrom
)
{
    private ImmutableArray<Finding>? findings;
    private QuantityCatalogue? catalogue;
    private ClearanceReport? clearances;

    /// <summary>The hanger's tilt that was named, or null.</summary>
    internal HangerTilt? Tilt { get; init; }

    /// <summary>The knock that was asked about, or null for the usual one.</summary>
    internal Knock? Knock { get; init; }

    /// <summary>The room to spokes and frame, and the stops.</summary>
    internal ClearanceReport Clearances => clearances ??= SpokeClearance.Of(Table, Tilt, Knock);

    /// <summary>What the bench says, when the spec holds measurements; <see cref="Spec"/> then has its values.</summary>
    internal BenchFit? Fit { get; init; }

    /// <summary>Whether there are measurements that give no sure mechanism; every output then says so first.</summary>
    internal bool FitFailed => Fit is { Status: not BenchFitStatus.Fitted };

    /// <summary>
    /// Standard uncertainty of a gear's gap from the measurements (mm), or null: nothing measured, no gap, or another
    /// chain or body angle than the measurements were judged with.
    /// </summary>
    internal double? GapUncertaintyMm(Gear gear) =>
        Fit is { } fit
        && fit.Pitches == Table.Pitches
        && Table.BodyAngleRad == Spec.RearDerailleur?.BodyAngleRad
        && fit.Gaps.FirstOrDefault(g => g.Gear == gear) is { } gap
        && double.IsFinite(gap.GapUncertaintyMm)
            ? gap.GapUncertaintyMm
            : null;

    /// <summary>What in its gear table is worth a look.</summary>
    internal ImmutableArray<Finding> Findings => findings ??= Drivetrain.Findings.Of(Table);

    /// <summary>The gear in which the gap is set: the spec's, else on the axle that of the set-up, else smallest ring and largest cog.</summary>
    internal Gear GapGear =>
        Work.Gap is { } gap ? new(gap.RingTeeth, gap.CogTeeth)
        : Spec.RearDerailleur?.Coaxial is { } mount ? mount.SetUpGear(Spec)
        : new(Spec.Rings.Min(ring => ring.Teeth), Spec.Cogs.Teeth[^1]);

    /// <summary>What to do about a setting of the front derailleur that the spec gives and that is not as wanted, else null.</summary>
    internal FrontCorrection? Correction(FrontSetting setting) =>
        setting is { IsGiven: true, IsWithin: false }
            ? FrontCorrector.Correct(Table, setting.Kind, setting.GapMm)
            : null;

    /// <summary>Its named quantities.</summary>
    internal QuantityCatalogue Catalogue => catalogue ??= QuantityCatalogue.Of(Spec, Choice, Table);

    /// <summary>A finding in words: of a state, the gear's own explanation.</summary>
    internal Explanation WordsOf(Finding finding) =>
        finding.Kind == FindingKind.State && Table.Find(finding.Gear) is { } gear
            ? Explanation.Of(gear, Spec) ?? Explanation.Of(finding, Spec)
            : Explanation.Of(finding, Spec);

    /// <summary>Exit code of a command that only looks at the mechanism; gears told not to be used do not count.</summary>
    internal int ExitCode => Exit(Findings.All(finding => finding.NotUsed));

    /// <summary>
    /// Exit code of a command that found all fine or not; rejected measurements, parts that touch or have too little room and
    /// loose stops are never fine.
    /// </summary>
    internal int Exit(bool isFine) =>
        isFine && !FitFailed && !Clearances.AnyFound ? Cli.ExitCode.Fine : Cli.ExitCode.Findings;

    /// <summary>
    /// Reads the spec that a command names. When it cannot be used, says why on the console (or as JSON) and gives null.
    /// </summary>
    internal static Bike? Load(
        SpecSettings settings,
        IAnsiConsole console,
        double? bodyAngleRad = null,
        TravelOption travel = default
    )
    {
        SpecReading reading;
        using (var stream = InputFile.Open(settings.SpecPath))
        {
            reading = SpecReader.Read(stream, settings.SpecPath, PartFiles.Library(settings));
        }
        if (reading.Spec is not { } file)
        {
            ProblemReport.Write(console, reading.Problems, settings.Json);
            return null;
        }
        // A gap was read with the chain that the file names, so the fit comes before any option.
        var fit = file.Drivetrain.Measured is { Readings.IsEmpty: false }
            ? BenchGeometry.Fit(file.Drivetrain)
            : null;
        var spec = fit?.Spec ?? file.Drivetrain;
        var from = PitchesFrom.Spec;
        if (settings.Pitches is { } asked)
        {
            spec = spec with { Chain = spec.Chain with { Pitches = asked } };
            from = PitchesFrom.Option;
            if (SpecCheck.Problems(spec).FirstOrDefault() is { } problem)
            {
                throw new BadInputException(Texts.Get("option.pitches", problem.Message));
            }
        }
        travel.Check(spec);
        if (bodyAngleRad is not null && spec.RearDerailleur?.Sprung is not null)
        {
            throw new BadInputException(Texts.Get("option.bodyAngleSprung"));
        }
        var choice = ChainChooser.Choose(spec);
        if (spec.Chain.Pitches is null)
        {
            from = choice.Numbers.Recommended is null
                ? PitchesFrom.BenchRule
                : PitchesFrom.Recommended;
        }
        var table = GearTableSolver.Solve(
            spec,
            ChainChooser.PitchesFor(spec, choice),
            bodyAngleRad,
            travel.TravelMm
        );
        return new(spec, file.Work, choice, table, from) { Fit = fit };
    }
}
