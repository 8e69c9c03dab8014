using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Measurement;

namespace Cogwright.Care;

/// <summary>What a new chain on used cogs is expected to do.</summary>
public enum NewChainAnswer
{
    /// <summary>It will run, as far as wear goes.</summary>
    WillRun,

    /// <summary>It may skip under load, or too little is known.</summary>
    MaySkip,

    /// <summary>It will skip under load: the cogs are expected to be worn.</summary>
    WillSkip,
}

/// <summary>
/// What a new chain on these cogs will do, from the old chain's elongation and how many chains the cogs have borne. Common
/// practice, and never a proof: only a test under load is. Immutable.
/// </summary>
/// <param name="Answer">What is expected.</param>
/// <param name="Reasons">Why, in words.</param>
/// <param name="Caution">What stands before the test.</param>
/// <param name="Test">The test under load that must be done before handing over.</param>
public sealed record NewChainOutlook(
    NewChainAnswer Answer,
    ImmutableArray<string> Reasons,
    string Caution,
    string Test
)
{
    /// <summary>The answer for the bike's present chain being replaced.</summary>
    /// <param name="facts">The bike.</param>
    /// <param name="table">The shop's table.</param>
    /// <exception cref="ArgumentException">A reading is out of range.</exception>
    public static NewChainOutlook Of(CareFacts facts, CareTable table)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(table);
        var reasons = ImmutableArray.CreateBuilder<string>();
        var answer = NewChainAnswer.WillRun;
        void Tell(NewChainAnswer least, string reason)
        {
            answer = (NewChainAnswer)Math.Max((int)answer, (int)least);
            reasons.Add(reason);
        }
        var onCogs = OnTheseCogs(facts.Chains, out var isWhole);
        if (onCogs.IsEmpty)
        {
            Tell(NewChainAnswer.MaySkip, Texts.Get("outlook.noChain"));
        }
        for (var i = 0; i < onCogs.Length; i++)
        {
            var care = ChainCare.Of(onCogs[i], facts, table);
            var isLast = i == onCogs.Length - 1;
            var limit = care.Limit.Percent;
            if (care.CogsToo?.Verdict == Verdict.Outside)
            {
                Tell(
                    NewChainAnswer.WillSkip,
                    Texts.Get(
                        isLast ? "outlook.worn" : "outlook.wornBefore",
                        table.Chain.CogsTooPercent,
                        i + 1
                    )
                );
                continue;
            }
            switch (care.Judgement?.Verdict)
            {
                case null:
                    Tell(
                        NewChainAnswer.MaySkip,
                        Texts.Get(isLast ? "outlook.noReading" : "outlook.noReadingBefore", i + 1)
                    );
                    break;
                case Verdict.Outside:
                    Tell(
                        NewChainAnswer.MaySkip,
                        Texts.Get(isLast ? "outlook.late" : "outlook.lateBefore", limit, i + 1)
                    );
                    break;
                case Verdict.TooCloseToCall:
                    Tell(
                        NewChainAnswer.MaySkip,
                        Texts.Get(isLast ? "outlook.close" : "outlook.closeBefore", limit, i + 1)
                    );
                    break;
                // Only where the shop lets chains run beyond where cogs are held for worn.
                case Verdict.Within when care.CogsToo?.Verdict == Verdict.TooCloseToCall:
                    Tell(
                        NewChainAnswer.MaySkip,
                        Texts.Get(
                            isLast ? "outlook.cogsClose" : "outlook.cogsCloseBefore",
                            table.Chain.CogsTooPercent,
                            i + 1
                        )
                    );
                    break;
                // What it came to after its last reading nobody measured.
                case Verdict.Within when care.Forecast.At?.Earliest <= RiddenTo(facts, onCogs, i):
                    Tell(
                        NewChainAnswer.MaySkip,
                        Texts.Get(isLast ? "outlook.after" : "outlook.afterBefore", limit, i + 1)
                    );
                    break;
                default:
                    if (isLast)
                    {
                        Tell(NewChainAnswer.WillRun, Texts.Get("outlook.inTime", limit));
                    }
                    break;
            }
        }
        if (!isWhole)
        {
            Tell(NewChainAnswer.MaySkip, Texts.Get("outlook.unknownCogs"));
        }
        var bears = table[CareTerm.ChainsPerCogs];
        if (onCogs.Length >= bears)
        {
            Tell(
                NewChainAnswer.MaySkip,
                Texts.Get(
                    "outlook.manyChains",
                    onCogs.Length,
                    bears.ToString("0.#", CultureInfo.InvariantCulture),
                    table.From(CareTerm.ChainsPerCogs)
                )
            );
        }
        return new(
            answer,
            reasons.ToImmutable(),
            Texts.Get("outlook.caution"),
            Texts.Get("outlook.test")
        );
    }

    // What the counter stood at when the chain was replaced, or stands at now, as far as anybody looked.
    private static double? RiddenTo(CareFacts facts, ImmutableArray<FittedChain> chains, int i) =>
        i + 1 < chains.Length ? chains[i + 1].Usage : facts.Rate()?.LastUsage;

    // From the chain with which new cogs came; when none did, nobody knows what the cogs bore before the first.
    private static ImmutableArray<FittedChain> OnTheseCogs(
        ImmutableArray<FittedChain> chains,
        out bool isWhole
    )
    {
        for (var i = chains.Length - 1; i >= 0; i--)
        {
            if (chains[i].WithNewCogs)
            {
                isWhole = true;
                return chains[i..];
            }
        }
        isWhole = false;
        return chains;
    }
}
