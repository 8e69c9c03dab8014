using Cogwright.Measurement;

namespace Cogwright.Fastening;

/// <summary>How a torque was reached or read.</summary>
public enum ReadingWay
{
    /// <summary>The tool clicked or slipped at its setting, and the fastener turned until then.</summary>
    Clicked,

    /// <summary>The tool clicked at its setting without the fastener turning: it may be tighter than that.</summary>
    ClickedWithoutTurning,

    /// <summary>The tool told it, while the fastener turned.</summary>
    Told,
}

/// <summary>A torque that was reached or read. Immutable.</summary>
/// <param name="Tool">The tool, without a problem.</param>
/// <param name="ToldNm">What it was set to, or told (N·m).</param>
/// <param name="Way">How.</param>
public sealed record TorqueReading(TorqueTool Tool, double ToldNm, ReadingWay Way)
{
    /// <summary>Half-width within which a hand finds its place on the grip again (mm). Common practice.</summary>
    public const double UsualHandMm = 10;

    /// <summary>What stood between the tool and the fastener.</summary>
    public WrenchAdapter Adapter { get; init; } = WrenchAdapter.None;

    /// <summary>How far the hand may have been off its place either way (mm), 0 or more; counts only with an adapter.</summary>
    public double HandMm { get; init; } = UsualHandMm;
}

/// <summary>What a reading comes to. Immutable.</summary>
public sealed record TorqueResult
{
    /// <summary>What the fastener got, with its standard uncertainty (N·m).</summary>
    public required Reading Torque { get; init; }

    /// <summary>
    /// Within, outside, or too close to call with this tool; null when the figure has no tolerance and the reading agrees with it as
    /// far as the tool can tell.
    /// </summary>
    public Verdict? Verdict { get; init; }

    /// <summary>Whether only a least torque is shown: it clicked without turning.</summary>
    public bool ShowsLeastOnly { get; init; }

    /// <summary>What it means, in one sentence.</summary>
    public required string What { get; init; }

    /// <summary>What to do now; empty when nothing.</summary>
    public string WhatToDo { get; init; } = "";
}

/// <summary>Holds torques that were reached or read against what was asked.</summary>
public static class TorqueReview
{
    /// <summary>What the fastener got.</summary>
    /// <param name="reading">The reading.</param>
    /// <exception cref="ArgumentException">
    /// The tool cannot be, the torque is outside its scale, or its arm is not known though the adapter makes it count.
    /// </exception>
    public static Reading At(TorqueReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        var tool = reading.Tool;
        if (TorqueToolCheck.Problems(tool) is [var first, ..])
        {
            throw new ArgumentException($"{first.Field}: {first.Message}", nameof(reading));
        }
        if (!(reading.ToldNm > 0 && reading.ToldNm <= tool.MaxNm))
        {
            throw new ArgumentException(
                Texts.Get("reading.beyondScale", reading.ToldNm, tool.Name, tool.MaxNm),
                nameof(reading)
            );
        }
        Demand.Length(reading.HandMm, 0, WrenchAdapter.MostArmMm, nameof(reading));
        var told = tool.GaugeAt(reading.ToldNm).Read(reading.ToldNm);
        if (reading.Adapter.InLineMm == 0)
        {
            return told;
        }
        if (tool.ArmMm is not { } arm)
        {
            throw new ArgumentException(Texts.Get("reason.ArmUnknown"), nameof(reading));
        }
        var factor = reading.Adapter.Factor(arm);
        // The place of the hand is rectangular within its half-width (GUM 4.3.7).
        var hand =
            Math.Abs(reading.Adapter.PerHandMm(reading.ToldNm, arm))
            * reading.HandMm
            / Math.Sqrt(3);
        return new Reading(told.Value * factor, told.StandardUncertainty * factor).With(hand);
    }

    /// <summary>What a reading comes to.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="asked">What was asked (N·m).</param>
    /// <exception cref="ArgumentException">The reading cannot be: as <see cref="At"/>.</exception>
    public static TorqueResult Of(TorqueReading reading, TorqueRange asked)
    {
        ArgumentNullException.ThrowIfNull(asked);
        var torque = At(reading);
        if (reading.Way == ReadingWay.ClickedWithoutTurning)
        {
            return LeastOnly(torque, asked);
        }
        return asked.IsSingleFigure ? OfFigure(torque, asked.LowerNm) : OfRange(torque, asked);
    }

    private static TorqueResult OfRange(Reading torque, TorqueRange asked)
    {
        var verdict = Judgement.Of(torque, asked.Band).Verdict;
        var side = torque.Value > asked.MiddleNm ? "above" : "below";
        return new()
        {
            Torque = torque,
            Verdict = verdict,
            What = Texts.Get(
                $"result.{verdict}",
                torque.Value,
                2 * torque.StandardUncertainty,
                asked.LowerNm,
                asked.UpperNm
            ),
            WhatToDo = verdict switch
            {
                Verdict.Within => "",
                Verdict.Outside => Texts.Get($"result.Outside.{side}"),
                _ => Texts.Get($"result.TooCloseToCall.{side}"),
            },
        };
    }

    // Nothing says how far off is too far: what differs beyond doubt is told, what agrees is not called within.
    private static TorqueResult OfFigure(Reading torque, double figureNm)
    {
        var off = torque.Value - figureNm;
        var differs = Math.Abs(off) > Judgement.GuardFactor * torque.StandardUncertainty;
        return new()
        {
            Torque = torque,
            Verdict = differs ? Verdict.Outside : null,
            What = Texts.Get(
                differs ? "result.figure.differs" : "result.figure.agrees",
                torque.Value,
                2 * torque.StandardUncertainty,
                figureNm
            ),
            WhatToDo =
                !differs ? ""
                : off > 0 ? Texts.Get("result.Outside.above")
                : Texts.Get("result.Outside.below"),
        };
    }

    private static TorqueResult LeastOnly(Reading torque, TorqueRange asked)
    {
        // The least there is, already beyond the greatest that is asked: that much even a least torque proves.
        var isTooTight =
            Judgement.Of(torque, new ToleranceBand(null, asked.UpperNm)).Verdict == Verdict.Outside;
        var isEnough =
            Judgement.Of(torque, new ToleranceBand(asked.LowerNm, null)).Verdict == Verdict.Within;
        return new()
        {
            Torque = torque,
            ShowsLeastOnly = true,
            Verdict = isTooTight ? Verdict.Outside : Verdict.TooCloseToCall,
            What = Texts.Get(
                isTooTight ? "result.least.tooTight"
                    : isEnough ? "result.least.enough"
                    : "result.least.open",
                torque.Value,
                2 * torque.StandardUncertainty,
                asked.LowerNm,
                asked.UpperNm
            ),
            WhatToDo = Texts.Get(isTooTight ? "result.Outside.above" : "result.least.do"),
        };
    }
}
