using System.Collections.Immutable;
using Cogwright.Measurement;
using Cogwright.Setup.Catalogue;
using Cogwright.Setup.Targets;

namespace Cogwright.Setup;

/// <summary>Readings of how far a rear stop lets the guide pulley past the end cog.</summary>
internal static class StopReview
{
    /// <summary>What is aimed at (mm): enough to land the chain, too little to throw it. From memory; no source gives a figure.</summary>
    internal const double AimMm = 0.5;

    /// <summary>The most that is accepted (mm). From memory; no source gives a figure.</summary>
    internal const double MostMm = 1.0;

    internal static bool IsOf(string quantity) =>
        quantity is ReadingNames.OutboardOvershoot or ReadingNames.InboardOvershoot;

    internal static ReadingResult Judge(
        Bench bench,
        ImmutableArray<TakenReading> before,
        TakenReading taken
    )
    {
        var catalogue = bench.Catalogue;
        var isOutboard = taken.Quantity == ReadingNames.OutboardOvershoot;
        var place = isOutboard ? AdjusterPlace.OutboardStop : AdjusterPlace.InboardStop;
        if (!catalogue.HasRearDerailleur)
        {
            return ReadingReview.Asked(taken, null, Texts.Get("stop.noDerailleur"));
        }
        if (catalogue.IsOnAxle)
        {
            return ReadingReview.Asked(taken, null, Texts.Get("stop.onAxle"));
        }
        var target = Check.Of(
            taken.Quantity,
            isOutboard ? WorkStage.OutboardStop : WorkStage.InboardStop,
            bench.ByStop,
            isOutboard ? null : bench.SpokesCaution
        ) with
        {
            Value = AimMm,
            Lower = 0,
            Upper = MostMm,
            Unit = "mm",
        };
        // Past the end cog is outboard at the smallest and inboard at the largest.
        var sign = isOutboard ? 1 : -1;
        var advice = catalogue.Adjust(
            place,
            sign * taken.Reading.Value,
            sign * AimMm,
            AdjusterTrial.Of(before, taken, sign)
        );
        var result = ReadingReview.Against(
            taken,
            target,
            taken.Reading,
            new(target.Lower, target.Upper)
        );
        var within = result.Judgement is { Verdict: Verdict.Within };
        // The costliest failure first: what the stop lets the cage do as it stands, and after the turn.
        var room = isOutboard ? null : catalogue.RoomAtInboardStop(taken.Reading.Value);
        var roomAfter =
            !isOutboard && !within && advice.ExpectedMm is { } then
                ? catalogue.RoomAtInboardStop(sign * then)
                : null;
        return result with
        {
            Sentences = room is null ? result.Sentences : [room, .. result.Sentences],
            Gear = taken.Gear,
            Expected = AimMm,
            Adjustment = advice,
            Questions = within ? [] : AdjusterWords.Questions(advice),
            ToDo = within
                ? [Texts.Get("adjust.leaveWithin", advice.Name)]
                :
                [
                    .. AdjusterWords.ToDo(advice),
                    .. advice.ExpectedMm is { } expected
                        ? [Texts.Get("stop.expect", sign * expected)]
                        : Array.Empty<string>(),
                    .. roomAfter is { } after
                        ? [Texts.Get("stop.roomAfter", after)]
                        : Array.Empty<string>(),
                    Texts.Get(
                        isOutboard ? "stop.again.outboard"
                        : bench.ByStop is { } kind ? $"stop.again.inboard.{kind}"
                        : "stop.again.inboard"
                    ),
                ],
        };
    }
}
