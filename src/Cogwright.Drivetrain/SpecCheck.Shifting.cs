using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <content>What cannot be of the hanger, the shifting and the adjusters.</content>
public static partial class SpecCheck
{
    private static void CheckShifting(
        DrivetrainSpec spec,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        if (spec.Hanger is { } hanger)
        {
            if (hanger.Bends is { } bends and not (>= 0 and <= 100))
            {
                problems.Add(new("hanger.bends", Texts.Get("check.count", bends, 0, 100)));
            }
            if (hanger.GaugeRadiusMm is { } radius)
            {
                Range(problems, "hanger.gaugeRadius", radius, 100, 400);
            }
        }
        if (spec.RearDerailleur?.Cage.Guide.FloatMm is { } play)
        {
            Range(problems, "rearDerailleur.cage.guide.float", play, 0, 5);
        }
        if (spec.Shifting is { } shifting)
        {
            CheckShifting(shifting, problems);
        }
        for (var i = 0; i < spec.Adjusters.Length; i++)
        {
            CheckAdjuster($"adjusters[{i}]", spec.Adjusters[i], problems);
            for (var j = 0; j < i; j++)
            {
                if (spec.Adjusters[j].Moves == spec.Adjusters[i].Moves)
                {
                    problems.Add(new($"adjusters[{i}].moves", Texts.Get("check.adjusterTwice")));
                }
            }
        }
    }

    private static void CheckShifting(
        Shifting shifting,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        const string path = "shifting";
        if (!shifting.PullMm.IsEmpty && !shifting.PositionsMm.IsEmpty)
        {
            problems.Add(new(path, Texts.Get("check.pullAndPositions")));
        }
        if (shifting.PullMm.IsEmpty == shifting.ShiftRatio is not null)
        {
            problems.Add(new(path, Texts.Get("check.pullNeedsRatio")));
        }
        if (shifting.PullMm.Length > MostSprockets)
        {
            problems.Add(
                new(
                    $"{path}.pull",
                    Texts.Get("check.count", shifting.PullMm.Length, 1, MostSprockets)
                )
            );
        }
        for (var i = 0; i < shifting.PullMm.Length; i++)
        {
            Range(problems, $"{path}.pull[{i}]", shifting.PullMm[i], 0.5, 15);
        }
        if (shifting.ShiftRatio is { } ratio)
        {
            Range(problems, $"{path}.shiftRatio", ratio, 0.3, 5);
        }
        if (shifting.PositionsMm.Length > MostSprockets)
        {
            problems.Add(
                new(
                    $"{path}.positions",
                    Texts.Get("check.count", shifting.PositionsMm.Length, 1, MostSprockets)
                )
            );
        }
        for (var i = 0; i < shifting.PositionsMm.Length; i++)
        {
            Range(problems, $"{path}.positions[{i}]", shifting.PositionsMm[i], -200, 200);
            if (i > 0 && !(shifting.PositionsMm[i] < shifting.PositionsMm[i - 1]))
            {
                problems.Add(new($"{path}.positions[{i}]", Texts.Get("check.positionOrder")));
            }
        }
        if (shifting.OffsetStepMm is { } step)
        {
            Range(problems, $"{path}.offsetStep", step, 0.005, 2);
        }
        foreach (
            var (name, left) in (ReadOnlySpan<(string, int?)>)
                [
                    ("stepsLeftOutboard", shifting.StepsLeftOutboard),
                    ("stepsLeftInboard", shifting.StepsLeftInboard),
                ]
        )
        {
            if (left is { } steps and not (>= 0 and <= 200))
            {
                problems.Add(new($"{path}.{name}", Texts.Get("check.count", steps, 0, 200)));
            }
        }
    }

    private static void CheckAdjuster(
        string path,
        Adjuster adjuster,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        CheckScrew(path, adjuster, problems);
        if (adjuster.MmPerTurn is { } perTurn)
        {
            Range(problems, $"{path}.mmPerTurn", perTurn, 0.01, 20);
        }
        if (adjuster.ClicksPerTurn is { } clicks and not (>= 1 and <= 100))
        {
            problems.Add(new($"{path}.clicksPerTurn", Texts.Get("check.count", clicks, 1, 100)));
        }
    }
}
