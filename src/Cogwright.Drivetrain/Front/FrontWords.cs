namespace Cogwright.Drivetrain;

/// <summary>Front settings and their corrections in words.</summary>
public static class FrontWords
{
    /// <summary>How a setting stands.</summary>
    public static string Of(FrontSetting setting)
    {
        var name = Texts.Get(
            $"front.setting.{setting.Kind}",
            setting.Gear.RingTeeth,
            setting.Gear.CogTeeth
        );
        var key =
            !setting.IsGiven ? "front.gap.aimed"
            : setting.IsWithin ? "front.gap.within"
            : setting.GapMm < setting.Wanted.LowerMm ? "front.gap.below"
            : "front.gap.above";
        return Texts.Get(key, name, setting.GapMm, setting.Wanted.LowerMm, setting.Wanted.UpperMm);
    }

    /// <summary>What to do, in one or two sentences.</summary>
    public static string Of(FrontCorrection correction)
    {
        ArgumentNullException.ThrowIfNull(correction);
        if (correction.Turning is not { } turning)
        {
            var by = correction.WantedMm - correction.ReadMm;
            return by == 0
                ? Texts.Get("front.leave")
                : Texts.Get(by > 0 ? "front.slide.up" : "front.slide.down", Math.Abs(by));
        }
        var screw = turning.Adjuster?.Name ?? Texts.Get($"front.adjuster.{turning.Moves}");
        var turned = turning.Turns == 0 ? screw : Turned(turning);
        var what = turning.Status switch
        {
            CorrectionStatus.Turn => Texts.Get("front.turn", screw, turned, correction.ExpectedMm),
            CorrectionStatus.TryHalfTurn => Texts.Get("front.try", screw, turned),
            CorrectionStatus.OutOfTravel => Texts.Get(
                "front.outOfTravel",
                screw,
                turned,
                correction.ExpectedMm
            ),
            CorrectionStatus.NoEffect => Texts.Get("front.noEffect", screw),
            _ => Texts.Get("front.leave"),
        };
        var isTurned = turning.Status is CorrectionStatus.Turn or CorrectionStatus.TryHalfTurn;
        return isTurned && IsReverse(turning) ? $"{what} {Texts.Get("front.reverse")}" : what;
    }

    /// <summary>A gear in the cage in one line.</summary>
    public static string Of(FrontGear gear)
    {
        ArgumentNullException.ThrowIfNull(gear);
        if (gear.Own is not { } own)
        {
            return Texts.Get("front.gear.notReached", gear.Gear.RingTeeth, gear.Gear.CogTeeth);
        }
        var key = gear.TrimClears switch
        {
            null => "front.gear.free",
            true => "front.gear.trim",
            false => "front.gear.rubs",
        };
        return Texts.Get(
            key,
            gear.Gear.RingTeeth,
            gear.Gear.CogTeeth,
            own.InnerPlateMm,
            own.OuterPlateMm,
            Touched(own.Rubs)
        );
    }

    /// <summary>What the chain touches, as a person lists it; empty when nothing.</summary>
    public static string Touched(CageRub rubs) =>
        string.Join(
            ", ",
            new[] { CageRub.InnerPlate, CageRub.OuterPlate, CageRub.Bridge }
                .Where(part => rubs.HasFlag(part))
                .Select(part => Texts.Get($"front.part.{part}"))
        );

    /// <summary>Such as "¾ turn clockwise (2 mm hex)".</summary>
    private static string Turned(AdjusterCorrection turning)
    {
        var turns = Texts.Get(
            Math.Abs(turning.Turns) > 1 ? "front.turns.many" : "front.turns.one",
            TurnAmount.Of(turning.Turns),
            Texts.Get(turning.Turns > 0 ? "front.way.clockwise" : "front.way.anticlockwise")
        );
        return turning.Adjuster?.Tool is { } tool ? Texts.Get("front.tool", turns, tool) : turns;
    }

    private static bool IsReverse(AdjusterCorrection turning) =>
        turning.ActsOtherWay
        || (
            turning.Adjuster is { ClockwiseOutboard: { } outboard }
            && outboard != AdjusterRate.ClockwiseIsOutboard(turning.Moves, null)
        );
}
