using System.Collections.Immutable;
using Cogwright.Measurement;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>Holds readings against targets, and turns a gap into what to do.</summary>
public static class ReadingReview
{
    /// <summary>Judges readings one by one; a reading that cannot be is asked about, never left out and never converted.</summary>
    /// <param name="catalogue">What the model says of the bike.</param>
    /// <param name="targets">Its targets (<see cref="TargetList"/>).</param>
    /// <param name="work">How the bike is shifted.</param>
    /// <param name="readings">The readings, in any order.</param>
    /// <param name="trial">A trial turn of the body-angle screw, when what it does was unknown; else null.</param>
    /// <returns>One result for each reading, in the same order.</returns>
    public static ImmutableArray<ReadingResult> Judge(
        QuantityCatalogue catalogue,
        ImmutableArray<Target> targets,
        WorkSpec work,
        ImmutableArray<TakenReading> readings,
        TrialTurn? trial = null
    )
    {
        ArgumentNullException.ThrowIfNull(catalogue);
        ArgumentNullException.ThrowIfNull(work);
        return
        [
            .. readings.Select(
                (reading, i) =>
                    reading.Gear is { } gear && !catalogue.Has(gear)
                        ? Asked(
                            reading,
                            null,
                            Texts.Get("reading.noSuchGear", gear.RingTeeth, gear.CogTeeth)
                        )
                    : StopReview.IsOf(reading.Quantity)
                        ? StopReview.Judge(new(catalogue, work), readings[..i], reading)
                    : ReadingNames.IsOneOfSeveral(reading.Quantity)
                        ? OneOfSeveral(catalogue, reading)
                    : Judge(catalogue, targets, readings[..i], reading, trial)
            ),
        ];
    }

    private static ReadingResult Judge(
        QuantityCatalogue catalogue,
        ImmutableArray<Target> targets,
        ImmutableArray<TakenReading> before,
        TakenReading taken,
        TrialTurn? trial
    )
    {
        if (targets.FirstOrDefault(t => t.Id == taken.Quantity) is not { } target)
        {
            return WithoutTarget(catalogue, targets, taken);
        }
        if (ReadingDoubts.Impossible(catalogue, target, taken) is { } doubt)
        {
            return Asked(taken, target, doubt);
        }
        if (target.Id == TargetNames.Gap)
        {
            return GapReview.Judge(catalogue, target, taken, trial);
        }
        var questions = ImmutableArray.CreateBuilder<string>();
        if (target.Gear is { } wanted)
        {
            if (taken.Gear is { } other && other != wanted)
            {
                return Asked(
                    taken,
                    target,
                    Texts.Get(
                        "reading.otherGear",
                        wanted.RingTeeth,
                        wanted.CogTeeth,
                        other.RingTeeth,
                        other.CogTeeth
                    )
                );
            }
            if (taken.Gear is null)
            {
                questions.Add(Texts.Get("reading.gearTaken", wanted.RingTeeth, wanted.CogTeeth));
            }
        }
        else if (taken.Gear is { } unneeded)
        {
            questions.Add(
                Texts.Get("reading.gearNotNeeded", unneeded.RingTeeth, unneeded.CogTeeth)
            );
        }
        var result = Against(taken, target, taken.Reading, new(target.Lower, target.Upper)) with
        {
            Gear = target.Gear,
            Expected = target.Value,
            Questions = questions.ToImmutable(),
        };
        if (
            catalogue.Front is not { } front
            || result.Judgement is not { Verdict: not Verdict.Within }
        )
        {
            return result;
        }
        return front.Advice(taken with { Gear = target.Gear }, before) is { } advice
            ? result with
            {
                Adjustment = advice.Adjustment,
                ToDo =
                    target.Id == TargetNames.FrontHeight
                        ? [advice.ToDo, Texts.Get("front.heightFirst")]
                        : [advice.ToDo],
                After = advice.After,
            }
            : result;
    }

    /// <summary>
    /// A reading judged against a band, in the target's unit and convention; <paramref name="noGauge"/> says what to do
    /// when no gauge can decide, or null when one can.
    /// </summary>
    internal static ReadingResult Against(
        TakenReading taken,
        Target target,
        Reading reading,
        ToleranceBand band,
        Func<Judgement, string?>? noGauge = null
    )
    {
        var judgement = Judgement.Of(reading, band);
        return new()
        {
            Taken = taken,
            Status = ReadingStatus.Judged,
            Target = target,
            Unit = target.Unit,
            Judgement = judgement,
            Sentences =
            [
                .. VerdictWords.Of(judgement, target.Unit, noGauge?.Invoke(judgement)),
                .. target.Convention.Length > 0
                    ? [Texts.Get("reading.convention", target.Convention)]
                    : Array.Empty<string>(),
            ],
        };
    }

    /// <summary>A reading that is asked about.</summary>
    internal static ReadingResult Asked(TakenReading taken, Target? target, string question) =>
        new()
        {
            Taken = taken,
            Status = ReadingStatus.Asked,
            Target = target,
            Unit = target?.Unit ?? "",
            Gear = taken.Gear,
            Questions = [question],
        };

    /// <summary>A reading that <see cref="HangerReview"/> or <see cref="IndexReview"/> takes up.</summary>
    private static ReadingResult OneOfSeveral(QuantityCatalogue catalogue, TakenReading taken)
    {
        if (ReadingNames.ClockHours(taken.Quantity) is null)
        {
            if (!catalogue.HasRearDerailleur)
            {
                return Asked(taken, null, Texts.Get("index.noDerailleur"));
            }
            if (taken.Gear is null)
            {
                return Asked(taken, null, Texts.Get("index.whichCog"));
            }
        }
        return new()
        {
            Taken = taken,
            Status = ReadingStatus.OneOfSeveral,
            Unit = ReadingNames.Unit(taken.Quantity),
            Gear = taken.Gear,
        };
    }

    private static ReadingResult WithoutTarget(
        QuantityCatalogue catalogue,
        ImmutableArray<Target> targets,
        TakenReading taken
    )
    {
        if (catalogue.Find(taken.Quantity, taken.Gear) is not { } quantity)
        {
            var names = KnownReadings.Of(catalogue, targets);
            var listed = KnownReadings.List(names);
            return Asked(
                taken,
                null,
                KnownReadings.Nearest(taken.Quantity, names) is { } near
                    ? Texts.Get("reading.noSuchTargetNear", taken.Quantity, near, listed)
                    : Texts.Get("reading.noSuchTarget", taken.Quantity, listed)
            );
        }
        return new()
        {
            Taken = taken,
            Status = ReadingStatus.Compared,
            Unit = quantity.Unit,
            Gear = quantity.Gear,
            Expected = quantity.Value,
            Sentences =
            [
                Texts.Get("reading.compared", taken.Reading.Value, quantity.Value, quantity.Unit),
                Texts.Get("reading.convention", quantity.Convention),
            ],
        };
    }
}
