using System.Collections.Immutable;
using Cogwright.Measurement;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>Makes one result of the index of all cogs, from the model and from readings.</summary>
public static class IndexReview
{
    /// <summary>A reading on the limit is within it in spite of rounding (mm).</summary>
    private const double RoundingMm = 1e-9;

    /// <summary>The index, or null when neither the spec nor a reading says anything of it.</summary>
    /// <param name="catalogue">What the model says of the bike.</param>
    /// <param name="work">How it is shifted.</param>
    /// <param name="readings">All readings; those of the index and of the hanger are picked out.</param>
    public static IndexResult? Judge(
        QuantityCatalogue catalogue,
        WorkSpec work,
        ImmutableArray<TakenReading> readings
    )
    {
        ArgumentNullException.ThrowIfNull(catalogue);
        ArgumentNullException.ThrowIfNull(work);
        var isMotor = work.Actuation is Actuation.MotorWired or Actuation.MotorWireless;
        var hanger = HangerReview.Judge(catalogue, [], readings);
        var model = catalogue.Index(hanger?.Now is null ? [] : hanger.Readings);
        var read = catalogue.ReadIndex(Pairs(readings), isMotor);
        if (model is null && read is null)
        {
            return null;
        }
        var friction = read is null ? null : Friction(read, readings);
        var isSlow = friction is { Verdict: Verdict.Outside };
        var isRight =
            read is not null
            && read.Cogs.All(cog => Math.Abs(cog.MiddleMm) <= read.LimitMm + RoundingMm);
        return new()
        {
            Model = model,
            Read = read,
            Friction = friction,
            Sentences =
            [
                .. model is null ? [] : Model(model, catalogue.IsOnAxle),
                .. hanger?.Now is null || model is null
                    ? Array.Empty<string>()
                    : [Texts.Get("index.withHanger")],
                .. read is null ? [] : Read(catalogue, isMotor, read, friction),
            ],
            Questions =
            [
                .. read is null ? ModelQuestions(model!) : AdjusterWords.Questions(read.Advice),
            ],
            ToDo =
                isSlow
                    ?
                    [
                        Texts.Get(
                            isMotor
                                ? Texts.OnAxle("index.playFirst", catalogue.IsOnAxle)
                                : "index.frictionFirst"
                        ),
                    ]
                : read is null ? [.. ModelToDo(model!)]
                : isRight ? [Texts.Get("index.leave")]
                : [.. AdjusterWords.ToDo(read.Advice), .. After(read)],
            IsFine = read is null ? model!.AllFine : isRight && !isSlow,
        };
    }

    private static ImmutableArray<(int, double?, double?)> Pairs(
        ImmutableArray<TakenReading> readings
    ) =>
        [
            .. readings
                .Where(r =>
                    r.Quantity is ReadingNames.IndexUp or ReadingNames.IndexDown
                    && r.Gear is not null
                )
                .GroupBy(r => r.Gear!.Value.CogTeeth)
                .Select(cog =>
                    (
                        cog.Key,
                        cog.LastOrDefault(r => r.Quantity == ReadingNames.IndexUp)?.Reading.Value,
                        cog.LastOrDefault(r => r.Quantity == ReadingNames.IndexDown)?.Reading.Value
                    )
                ),
        ];

    private static Judgement? Friction(IndexRead read, ImmutableArray<TakenReading> readings)
    {
        if (read.WorstBand is not { DeadBandMm: { } band } worst)
        {
            return null;
        }
        double Of(string quantity) =>
            readings
                .Last(r => r.Quantity == quantity && r.Gear?.CogTeeth == worst.CogTeeth)
                .Reading.StandardUncertainty;
        return Judgement.Of(
            new(
                Math.Abs(band),
                Quadrature.Combine(Of(ReadingNames.IndexUp), Of(ReadingNames.IndexDown))
            ),
            new(null, read.BandLimitMm)
        );
    }

    private static IEnumerable<string> Model(IndexFacts model, bool isOnAxle)
    {
        if (model.CogsNotReached > 0)
        {
            yield return Texts.Get("index.cogsNotReached", model.CogsNotReached);
        }
        if (model.ClicksUnused > 0)
        {
            yield return Texts.Get(
                isOnAxle ? "index.clicksUnused.onAxle"
                    : model.ClicksGoOutboard ? "index.clicksUnused.atRest"
                    : "index.clicksUnused",
                model.ClicksUnused
            );
        }
        yield return Texts.Get(
            model.AllFine ? "index.fine" : "index.beyond",
            model.GreatestResidualMm,
            model.LimitMm,
            Texts.Get(model.LimitIsFloat ? "index.limit.float" : "index.limit.usual")
        );
        if (model.GreatestResidualMm <= model.LimitMm)
        {
            yield break;
        }
        if (model.IsSteady)
        {
            var motor = model.IsCable ? "" : ".motor";
            yield return Texts.Get(
                model.IsTooLittle(model.SteadyErrorMm)
                    ? $"index.steady.little{motor}"
                    : $"index.steady.much{motor}",
                Math.Abs(model.SteadyErrorMm)
            );
        }
        else if (model.WorstClick is { } click)
        {
            yield return Texts.Get(
                Texts.OnAxle(
                    model.IsTooLittle(model.WorstClickErrorMm)
                        ? "index.click.little"
                        : "index.click.much",
                    isOnAxle
                ),
                click.From,
                click.To,
                Math.Abs(model.WorstClickErrorMm)
            );
        }
    }

    private static IEnumerable<string> Read(
        QuantityCatalogue catalogue,
        bool isMotor,
        IndexRead read,
        Judgement? friction
    )
    {
        yield return Texts.Get(
            Texts.OnAxle(
                read.GreatestAfterMm <= read.LimitMm ? "index.read.fine" : "index.read.beyond",
                catalogue.IsOnAxle
            ),
            Math.Abs(read.BestMoveMm),
            AdjusterWords.Way(read.BestMoveMm > 0),
            read.GreatestAfterMm,
            read.LimitMm
        );
        if (friction is null || read.WorstBand is not { } worst)
        {
            yield return Texts.Get("index.read.oneWay");
            yield break;
        }
        yield return Texts.Get(
            $"index.friction.{friction.Verdict}{(isMotor ? ".motor" : "")}",
            friction.Reading.Value,
            worst.CogTeeth,
            read.BandLimitMm
        );
        if (friction.Verdict is Verdict.Outside && !isMotor)
        {
            // The cable pulls hard whatever the friction; the spring has only itself.
            yield return Texts.Get(
                catalogue.RestsInboard ? "index.friction.spring.atRest" : "index.friction.spring"
            );
        }
        if (worst.DeadBandMm < 0)
        {
            yield return Texts.Get("index.friction.leads");
        }
    }

    private static IEnumerable<string> ModelQuestions(IndexFacts model)
    {
        if (model is { IsCable: true, AllFine: false })
        {
            yield return Texts.Get("index.partsBelong");
        }
    }

    private static IEnumerable<string> ModelToDo(IndexFacts model)
    {
        if (model.Advice is not { } advice)
        {
            yield break;
        }
        if (model.IsCable && advice.Kind is not AdjusterKind.LeaveAsIs)
        {
            // Where the cable stands nobody knows: from a quiet smallest cog the amount is known.
            yield return Texts.Get(
                "index.fromSmallest",
                (model.ClicksGoOutboard ? model.Cogs[^1] : model.Cogs[0]).CogTeeth
            );
        }
        foreach (var step in AdjusterWords.ToDo(advice))
        {
            yield return step;
        }
    }

    private static IEnumerable<string> After(IndexRead read)
    {
        if (read.Cogs.All(cog => cog.AfterMm is not null))
        {
            yield return Texts.Get(
                "index.after",
                string.Join(
                    ", ",
                    read.Cogs.Select(cog => Texts.Get("index.afterCog", cog.CogTeeth, cog.AfterMm))
                )
            );
        }
    }
}
