using System.Collections.Immutable;
using Cogwright.Measurement;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>A reading of the gap: in the target's gear against the target, in another against what the model expects there.</summary>
internal static class GapReview
{
    /// <summary>
    /// A reading this far from the model (mm) was probably read by another convention: chain to chain, or to another
    /// cog, differs by about this much (two chain half-heights, one cog's step).
    /// </summary>
    private const double FarFromModelMm = 5;

    internal static ReadingResult Judge(
        QuantityCatalogue catalogue,
        Target target,
        TakenReading taken,
        TrialTurn? trial
    )
    {
        // The target maker gives the gap gear, aim and limits always.
        var goal = target.Gear!.Value;
        var aimMm = target.Value!.Value;
        if (taken.Gear is not { } gear)
        {
            return ReadingReview.Asked(
                taken,
                target,
                Texts.Get("reading.whichGear", goal.RingTeeth, goal.CogTeeth)
            );
        }
        if (gear == goal)
        {
            var direct = ReadingReview.Against(
                taken,
                target,
                taken.Reading,
                new(target.Lower, target.Upper)
            ) with
            {
                Gear = gear,
                Expected = aimMm,
            };
            return Corrected(catalogue, direct, gear, aimMm, trial);
        }
        if (catalogue.ExpectedGapMm(gear, goal, aimMm) is not { } expectedMm)
        {
            return ReadingReview.Asked(
                taken,
                target,
                Texts.Get(
                    "reading.noGapInGear",
                    gear.RingTeeth,
                    gear.CogTeeth,
                    catalogue.FindGear(gear)?.State,
                    goal.RingTeeth,
                    goal.CogTeeth
                )
            );
        }
        return Corrected(
            catalogue,
            Predicted(catalogue, target, taken, gear, expectedMm),
            gear,
            expectedMm,
            trial
        );
    }

    private static ReadingResult Predicted(
        QuantityCatalogue catalogue,
        Target target,
        TakenReading taken,
        (int RingTeeth, int CogTeeth) gear,
        double expectedMm
    )
    {
        var goal = target.Gear!.Value;
        var here = catalogue.Find(QuantityNames.Gap, gear);
        var tips = Quadrature.Combine(
            here?.TipUncertainty ?? 0,
            catalogue.Find(QuantityNames.Gap, goal)?.TipUncertainty ?? 0
        );
        var result = ReadingReview.Against(
            taken,
            target with
            {
                Convention = here?.Convention ?? target.Convention,
            },
            taken.Reading.With(tips),
            new(
                expectedMm + (target.Lower - target.Value),
                expectedMm + (target.Upper - target.Value)
            ),
            // The tips are in the judged uncertainty: a better gauge does not help where they alone are too much.
            judgement =>
                tips > (judgement.DecidingUncertainty ?? 0)
                    ? Texts.Get("reading.noGaugeHere", goal.RingTeeth, goal.CogTeeth)
                    : null
        );
        return result with
        {
            Target = target,
            Gear = gear,
            Expected = expectedMm,
            AgainstPrediction = true,
            Sentences =
            [
                Texts.Get(
                    "reading.prediction",
                    target.Value,
                    goal.RingTeeth,
                    goal.CogTeeth,
                    expectedMm,
                    gear.RingTeeth,
                    gear.CogTeeth
                ),
                .. tips > 0 ? [Texts.Get("reading.tipsAdded", tips)] : Array.Empty<string>(),
                .. result.Sentences,
            ],
            Questions = here is { DependsOnAssumed: true }
                ? [Texts.Get("reading.predictionAssumed", goal.RingTeeth, goal.CogTeeth)]
                : [],
        };
    }

    private static ReadingResult Corrected(
        QuantityCatalogue catalogue,
        ReadingResult result,
        (int RingTeeth, int CogTeeth) gear,
        double wantedMm,
        TrialTurn? trial
    )
    {
        var readMm = result.Taken.Reading.Value;
        var learnt = trial is null
            ? null
            : catalogue.LearnTurn(trial.Gear, trial.BeforeMm, trial.AfterMm, trial.Turns);
        // The target maker gives aim and limits always.
        var tolerance = (result.Target!.Upper!.Value - result.Target.Lower!.Value) / 2;
        var advice = catalogue.CorrectGap(gear, readMm, wantedMm, learnt, tolerance);
        var within = result.Judgement is { Verdict: Verdict.Within };
        return result with
        {
            Correction = advice,
            ToDo = within
                ?
                [
                    Texts.Get(
                        Texts.OnAxle("correct.leaveWithin", catalogue.IsOnAxle),
                        GapAdviceWords.Name(catalogue.Screw)
                    ),
                ]
                : GapAdviceWords.ToDo(advice, catalogue.Screw),
            Questions =
            [
                .. result.Questions,
                .. Far(catalogue, gear, readMm),
                .. within ? [] : Broken(catalogue, advice),
                .. within ? [] : GapAdviceWords.Questions(advice, catalogue.Screw),
            ],
            After = within ? [] : GapAdviceWords.After(advice),
        };
    }

    private static ImmutableArray<string> Far(
        QuantityCatalogue catalogue,
        (int RingTeeth, int CogTeeth) gear,
        double readMm
    ) =>
        catalogue.Find(QuantityNames.Gap, gear) is { } model
        && Math.Abs(model.Value - readMm) > FarFromModelMm
            ?
            [
                Texts.Get(
                    Texts.OnAxle("reading.farFromModel", catalogue.IsOnAxle),
                    model.Value,
                    readMm,
                    gear.RingTeeth,
                    gear.CogTeeth
                ),
            ]
            : [];

    // A gear that is sound now and would not be after the turn is said before the turn.
    private static ImmutableArray<string> Broken(QuantityCatalogue catalogue, GapAdvice advice)
    {
        var gears = string.Join(
            ", ",
            advice
                .After.Where(g =>
                    !g.IsOk
                    && catalogue.FindGear((g.RingTeeth, g.CogTeeth))
                        is { IsOk: true, NotUsed: false }
                )
                .Select(g => $"{g.RingTeeth}/{g.CogTeeth}")
        );
        return gears.Length == 0 ? [] : [Texts.Get("correct.breaks", gears)];
    }
}
