namespace Cogwright.Drivetrain;

/// <summary>Turns a reading of a front setting into turns of its adjuster, and says what every gear will have then.</summary>
/// <remarks>
/// The outer gap grows as its stop moves outboard, the inner gap as its stop moves inboard, each by what the cage moves:
/// one reading says where the stop really stands. The effect of a turn is taken at that place; over one turn it changes by
/// a few hundredths of a millimetre.
/// </remarks>
public static class FrontCorrector
{
    /// <summary>What to do after a reading.</summary>
    /// <param name="table">The gear table.</param>
    /// <param name="kind">What was read.</param>
    /// <param name="readMm">What was read (mm).</param>
    /// <param name="wantedMm">What is wanted (mm), or null for what the part or common practice wants.</param>
    /// <param name="learnt">What the last turn taught, in movement of the cage (outboard or up positive).</param>
    /// <param name="gear">The gear in which a gap was read, or null for the setting's own; one that the bike has and that is reached.</param>
    /// <returns>Null when the spec describes no front derailleur.</returns>
    public static FrontCorrection? Correct(
        GearTable table,
        FrontSettingKind kind,
        double readMm,
        double? wantedMm = null,
        LearntTurn? learnt = null,
        Gear? gear = null
    )
    {
        ArgumentNullException.ThrowIfNull(table);
        if (table.Spec.FrontDerailleur is not { } front || table.Spec.Rings.Length < 2)
        {
            return null;
        }
        var wanted = wantedMm ?? Wanted(front.Wanted(kind), readMm);
        var at =
            gear is { } asked && table.Find(asked) is { HasReach: true } read
                ? read
                : FrontPlaces.SettingGear(table, kind);
        var stands = With(table, kind, readMm, at);
        var found = new FrontCorrection
        {
            Kind = kind,
            Gear = at.Gear,
            ReadMm = readMm,
            WantedMm = wanted,
        };
        var moves = MovedBy(kind);
        var adjuster = stands.Spec.Adjusters.FirstOrDefault(a => a.Moves == moves);
        if (adjuster is null && kind is FrontSettingKind.Height)
        {
            return found with
            {
                ExpectedMm = wanted,
                After = FrontClearances.Of(With(table, kind, wanted, at)),
            };
        }
        var sign = kind is FrontSettingKind.InnerGap ? -1 : 1;
        var turning = AdjusterCorrector.Correct(
            moves,
            adjuster,
            sign * readMm,
            sign * wanted,
            AdjusterRate.MmPerTurn(stands.Spec, moves, adjuster),
            learnt
        );
        var expected = sign * turning.ExpectedMm;
        return found with
        {
            Turning = turning,
            ExpectedMm = expected,
            After = expected is { } gap ? FrontClearances.Of(With(table, kind, gap, at)) : null,
        };
    }

    /// <summary>What an adjuster of that setting moves.</summary>
    public static Moves MovedBy(FrontSettingKind kind) =>
        kind switch
        {
            FrontSettingKind.OuterGap => Moves.FrontOutboardStop,
            FrontSettingKind.InnerGap => Moves.FrontInboardStop,
            _ => Moves.FrontHeight,
        };

    /// <summary>The table with the setting where a gap of that size puts it.</summary>
    private static GearTable With(
        GearTable table,
        FrontSettingKind kind,
        double gapMm,
        in GearResult at
    )
    {
        var derailleur = table.Spec.FrontDerailleur!;
        var set = kind switch
        {
            FrontSettingKind.OuterGap => derailleur with
            {
                OutboardStopMm = FrontPlaces.OutboardFor(table, derailleur, at, gapMm),
            },
            FrontSettingKind.InnerGap => derailleur with
            {
                InboardStopMm = FrontPlaces.InboardFor(table, derailleur, at, gapMm),
            },
            _ => derailleur with { HeightMm = gapMm },
        };
        return table with { Spec = table.Spec with { FrontDerailleur = set } };
    }

    /// <summary>A setting within its bounds is left alone; another is brought to the middle of them.</summary>
    private static double Wanted(SettingRange range, double readMm) =>
        range.Holds(readMm) ? readMm : range.AimMm;
}
