using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>
/// How near cage and chain come to the spokes, and the chain to the frame: the costliest failures of the trade, told
/// before anything else. What is not known is told as not known.
/// </summary>
/// <remarks>Model and equations: docs/theory/lateral.md. The least rooms are choices of this program, without a standard behind them.</remarks>
public static class SpokeClearance
{
    /// <summary>Least room between cage and spokes on the largest cog (mm).</summary>
    public const double LeastCageMm = 2;

    /// <summary>Least room that must be left at the inboard stop, and with the hanger's tilt (mm).</summary>
    public const double LeastAtStopMm = 1;

    /// <summary>Least room between chain and spokes (mm).</summary>
    public const double LeastChainMm = 1;

    /// <summary>Least room between the chain on the smallest cog and the frame (mm).</summary>
    public const double LeastFrameMm = 0.5;

    /// <summary>All clearances of a bike, the costliest first.</summary>
    /// <param name="table">The solved gears.</param>
    /// <param name="tilt">The hanger's tilt that was read, or null.</param>
    /// <param name="knock">The knock to tell the margin for; <see cref="Knock.Usual"/> when null.</param>
    /// <param name="movedSinceMeasured">
    /// Whether the tilt, or anything else that moves the cage, came after the distance cage to spokes was measured: what
    /// was measured then says nothing any more, and what rests on it is not known.
    /// </param>
    public static ClearanceReport Of(
        GearTable table,
        HangerTilt? tilt = null,
        Knock? knock = null,
        bool movedSinceMeasured = false
    )
    {
        ArgumentNullException.ThrowIfNull(table);
        var spec = table.Spec;
        var size = knock ?? Knock.Usual;
        var inboard = StopReach.Of(spec, RearStop.Inboard);
        var outboard = StopReach.Of(spec, RearStop.Outboard);
        var all = ImmutableArray.CreateBuilder<Clearance>();
        var cage = spec.RearDerailleur is null
            ? null
            : new CageToSpokes(table, inboard, movedSinceMeasured);
        if (cage is not null)
        {
            all.Add(cage.OnLargestCog());
            all.Add(cage.AtStop());
            if (tilt is { } read)
            {
                all.Add(cage.Bent(ClearanceKind.CageTilted, read, null, LeastAtStopMm));
            }
            all.Add(cage.Bent(ClearanceKind.CageKnocked, tilt ?? default, size, 0));
        }
        all.Add(ChainToSpokes(spec));
        all.Add(ChainToFrame(spec));
        return new(all.ToImmutable(), inboard, outboard, size, tilt)
        {
            Cage = cage,
            IsOnAxle = spec.RearDerailleur is { Coaxial: not null },
        };
    }

    /// <summary>What a distance means against the least it should be.</summary>
    internal static ClearanceVerdict Verdict(double mm, double leastMm) =>
        mm <= 0 ? ClearanceVerdict.Touches
        : mm < leastMm ? ClearanceVerdict.Close
        : ClearanceVerdict.Clear;

    /// <summary>Fields among these groups that nobody measured.</summary>
    internal static ImmutableArray<string> AssumedAmong(
        DrivetrainSpec spec,
        params ReadOnlySpan<string> groups
    )
    {
        var found = ImmutableArray.CreateBuilder<string>();
        foreach (var assumption in spec.Assumptions)
        {
            foreach (var group in groups)
            {
                if (assumption.Path.StartsWith(group, StringComparison.Ordinal))
                {
                    found.Add(assumption.Path);
                    break;
                }
            }
        }
        return found.ToImmutable();
    }

    /// <summary>The spokes, or null when too little is known of them.</summary>
    public static SpokeCone? Cone(DrivetrainSpec spec) =>
        spec?.Lateral?.Spokes is { } spokes
            ? SpokeCone.Of(
                spokes,
                spec.Cogs.LateralMm(spec.Cogs.Teeth.Length - 1)
                    - (ChainSides.CogThicknessMm(spec) / 2)
            )
            : null;

    /// <summary>What to measure to know the spokes: what is missing of hub and rim, or one distance when nothing is given.</summary>
    internal static IEnumerable<string> MissingOfSpokes(SpokeData? spokes, string oneDistance)
    {
        if (spokes is null || (spokes.FlangeLateralMm is null && spokes.FlangeRadiusMm is null))
        {
            yield return oneDistance;
            yield break;
        }
        if (spokes.FlangeLateralMm is null)
        {
            yield return "wheel.flangeLateral";
        }
        if (spokes.FlangeRadiusMm is null)
        {
            yield return "wheel.flangeRadius";
        }
        if (spokes.RimLateralMm is null)
        {
            yield return "wheel.rimLateral";
        }
        if (spokes.RimRadiusMm is null)
        {
            yield return "wheel.rimRadius";
        }
    }

    private static Clearance ChainToSpokes(DrivetrainSpec spec)
    {
        const ClearanceKind kind = ClearanceKind.ChainOnLargestCog;
        var missing = ImmutableArray.CreateBuilder<string>();
        var width = ChainSides.WidthMm(spec);
        if (width is null)
        {
            missing.Add("chain.width");
        }
        if (Cone(spec) is not { } cone)
        {
            missing.AddRange(MissingOfSpokes(spec.Lateral?.Spokes, "wheel.cogToSpokes"));
            return Unknown(kind, LeastChainMm, missing.ToImmutable());
        }
        if (width is null)
        {
            return Unknown(kind, LeastChainMm, missing.ToImmutable());
        }
        var largest = spec.Cogs.Teeth.Length - 1;
        var pitch = spec.Chain.PitchMm;
        // The innermost edge of the plates: nearer to the axle the spokes stand further out.
        var radius =
            Sprocket.PitchRadiusMm(spec.Cogs.Teeth[largest], pitch)
            - LateralPractice.PlateHalfHeightMm;
        var room = spec.Cogs.LateralMm(largest) - (width.Value / 2) - cone.LateralMm(radius);
        return new()
        {
            Kind = kind,
            Verdict = Verdict(room, LeastChainMm),
            Mm = room,
            LeastMm = LeastChainMm,
            IsMeasured = spec.Lateral?.Spokes?.CogToSpokesMm is not null,
            // A distance measured from the cog does not depend on where the cog stands.
            Assumed = spec.Lateral?.Spokes?.CogToSpokesMm is not null
                ? AssumedAmong(spec, "chain.width", "wheel.")
                : AssumedAmong(spec, "cogs.", "wheel.", "chain.width"),
        };
    }

    private static Clearance ChainToFrame(DrivetrainSpec spec)
    {
        const ClearanceKind kind = ClearanceKind.ChainOnSmallestCog;
        var missing = ImmutableArray.CreateBuilder<string>();
        var width = ChainSides.WidthMm(spec);
        if (spec.Lateral?.DropoutFaceMm is not { } face)
        {
            missing.Add("frame.dropoutFace");
            face = double.NaN;
        }
        if (width is null)
        {
            missing.Add("chain.width");
        }
        if (missing.Count > 0)
        {
            return Unknown(kind, LeastFrameMm, missing.ToImmutable());
        }
        var room = face - (spec.Cogs.LateralMm(0) + (width!.Value / 2));
        return new()
        {
            Kind = kind,
            Verdict = Verdict(room, LeastFrameMm),
            Mm = room,
            LeastMm = LeastFrameMm,
            Assumed = AssumedAmong(
                spec,
                "cogs.smallestLateral",
                "frame.dropoutFace",
                "chain.width"
            ),
        };
    }

    internal static Clearance Unknown(
        ClearanceKind kind,
        double leastMm,
        ImmutableArray<string> missing
    ) =>
        new()
        {
            Kind = kind,
            Verdict = ClearanceVerdict.CannotSay,
            LeastMm = leastMm,
            Missing = missing,
        };
}
