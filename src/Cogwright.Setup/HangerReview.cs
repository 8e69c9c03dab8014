using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Measurement;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>Makes one result of the readings of the hanger gauge.</summary>
public static class HangerReview
{
    /// <summary>A slope below this at the rim is not spoken of (mm): no gauge tells it.</summary>
    private const double SilentMm = 0.05;

    /// <summary>The hanger, or null when nothing was read of it.</summary>
    /// <param name="catalogue">What the model says of the bike.</param>
    /// <param name="targets">Its targets.</param>
    /// <param name="readings">All readings, in the order of reading; those of the hanger are picked out.</param>
    public static HangerResult? Judge(
        QuantityCatalogue catalogue,
        ImmutableArray<Target> targets,
        ImmutableArray<TakenReading> readings
    )
    {
        ArgumentNullException.ThrowIfNull(catalogue);
        var rounds = Rounds(readings);
        if (rounds.Count == 0)
        {
            return null;
        }
        if (catalogue.IsOnAxle)
        {
            return new()
            {
                Rounds = [],
                Readings = [.. rounds[^1]],
                Questions = [Texts.Get("hanger.onAxle")],
            };
        }
        var facts = rounds.Select(round => catalogue.Hanger([.. round])).ToImmutableArray();
        var last = -1;
        for (var i = 0; i < facts.Length; i++)
        {
            last = facts[i].Kind is HangerKind.Read ? i : last;
        }
        if (last < 0 || !catalogue.HasRearDerailleur)
        {
            return new()
            {
                Rounds = facts,
                Readings = [.. rounds[^1]],
                Questions =
                [
                    Texts.Get(
                        catalogue.HasRearDerailleur ? $"hanger.{facts[^1].Kind}" : "hanger.none"
                    ),
                ],
            };
        }
        var now = facts[last];
        var target = targets.FirstOrDefault(t => t.Id == TargetNames.HangerStraight);
        var judgement = target is null
            ? null
            : Judgement.Of(
                new(now.GreatestDifferenceMm, now.GreatestDifferenceUncertaintyMm),
                // A difference is never negative: only its upper limit decides.
                new(null, target.Upper)
            );
        var before = facts.FirstOrDefault(f => f.Kind is HangerKind.Read);
        var within = judgement is { Verdict: Verdict.Within };
        return new()
        {
            Rounds = facts,
            Readings = [.. rounds[last]],
            Now = now,
            Before = ReferenceEquals(before, now) ? null : before,
            Target = target,
            Judgement = judgement,
            Sentences =
            [
                // The costliest failure first.
                .. now.RoomToSpokes,
                .. ReferenceEquals(before, now) || before is null
                    ? Array.Empty<string>()
                    : [Line("hanger.before", before)],
                Lean(now),
                Toe(now),
                .. judgement is null ? [] : VerdictWords.Of(judgement, "mm"),
                .. Effect(now),
            ],
            Questions = [.. Questions(now, facts, within)],
            ToDo = within ? [Texts.Get("hanger.leave")] : [.. ToDo(now)],
        };
    }

    /// <summary>The nth reading at a clock position belongs to the nth round.</summary>
    private static List<List<ClockReading>> Rounds(ImmutableArray<TakenReading> readings)
    {
        var rounds = new List<List<ClockReading>>();
        foreach (var taken in readings)
        {
            if (ReadingNames.ClockHours(taken.Quantity) is not { } hours)
            {
                continue;
            }
            var round = rounds.FirstOrDefault(r => r.All(read => read.ClockHours != hours));
            if (round is null)
            {
                round = [];
                rounds.Add(round);
            }
            round.Add(new(hours, taken.Reading.Value, taken.Reading.StandardUncertainty));
        }
        return rounds;
    }

    private static string Lean(HangerFacts now) =>
        Math.Abs(now.TopLessBottomMm) < SilentMm
            ? Texts.Get("hanger.lean.none", now.LeanUncertaintyDeg)
            : Texts.Get(
                now.LeanDeg > 0 ? "hanger.lean.top" : "hanger.lean.bottom",
                Math.Abs(now.LeanDeg),
                now.LeanUncertaintyDeg,
                Math.Abs(now.TopLessBottomMm)
            );

    private static string Toe(HangerFacts now) =>
        Math.Abs(now.FrontLessRearMm) < SilentMm
            ? Texts.Get("hanger.toe.none", now.ToeUncertaintyDeg)
            : Texts.Get(
                now.ToeDeg > 0 ? "hanger.toe.front" : "hanger.toe.rear",
                Math.Abs(now.ToeDeg),
                now.ToeUncertaintyDeg,
                Math.Abs(now.FrontLessRearMm)
            );

    private static IEnumerable<string> Effect(HangerFacts now)
    {
        if (now.Gears.IsEmpty)
        {
            yield break;
        }
        var most = now.Gears.MaxBy(gear => Math.Abs(gear.LeftMm))!;
        yield return Texts.Get(
            "hanger.effect",
            Math.Abs(now.IndexedAwayMm),
            AdjusterWords.Way(now.IndexedAwayMm > 0),
            Math.Abs(most.LeftMm),
            most.RingTeeth,
            most.CogTeeth
        );
        var gap = now.Gears.MaxBy(gear => Math.Abs(gear.GapChangeMm))!;
        yield return Texts.Get("hanger.effectGap", gap.GapChangeMm, gap.RingTeeth, gap.CogTeeth);
    }

    private static IEnumerable<string> Questions(
        HangerFacts now,
        ImmutableArray<HangerFacts> rounds,
        bool within
    )
    {
        if (!within)
        {
            yield return Texts.Get("hanger.seated");
        }
        if (now.IsDoubtful)
        {
            yield return Texts.Get("hanger.doubtful", now.ResidualsMm.Max(Math.Abs));
        }
        if (now.GaugeRadiusAssumed && !within)
        {
            yield return Texts.Get("hanger.radius", now.GaugeRadiusMm);
        }
        if (!ReferenceEquals(rounds[^1], now))
        {
            yield return Texts.Get("hanger.lastRound");
        }
    }

    private static IEnumerable<string> ToDo(HangerFacts now)
    {
        var bends = now.Bends?.ToString(CultureInfo.InvariantCulture) ?? "?";
        yield return Texts.Get($"hanger.bending.{now.Bending}", bends);
        if (now.Bending is HangerBending.Replace)
        {
            yield break;
        }
        if (Math.Abs(now.TopLessBottomMm) >= SilentMm)
        {
            yield return Texts.Get(
                "hanger.pull",
                Texts.Get(now.LeanDeg > 0 ? "hanger.clock.6" : "hanger.clock.12"),
                Math.Abs(now.TopLessBottomMm) / 2,
                Texts.Get(now.LeanDeg > 0 ? "hanger.clock.12" : "hanger.clock.6")
            );
        }
        if (Math.Abs(now.FrontLessRearMm) >= SilentMm)
        {
            yield return Texts.Get(
                "hanger.pull",
                Texts.Get(now.ToeDeg > 0 ? "hanger.clock.9" : "hanger.clock.3"),
                Math.Abs(now.FrontLessRearMm) / 2,
                Texts.Get(now.ToeDeg > 0 ? "hanger.clock.3" : "hanger.clock.9")
            );
        }
        yield return Texts.Get("hanger.pullOnce", Clock(now.PullClockHours), now.PullMm);
        yield return Texts.Get("hanger.readAgain");
    }

    private static string Line(string key, HangerFacts facts) =>
        Texts.Get(key, facts.LeanDeg, facts.ToeDeg, facts.GreatestDifferenceMm);

    /// <summary>A clock position to the half hour, as a clock shows it.</summary>
    private static string Clock(double hours)
    {
        var half = (int)Math.Round(hours * 2);
        var hour = half / 2 % 12;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{(hour == 0 ? 12 : hour)}:{(half % 2 == 0 ? "00" : "30")}"
        );
    }
}
