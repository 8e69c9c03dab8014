namespace Cogwright.Setup.Targets;

/// <summary>What a drive without derailleur asks for.</summary>
internal static class SingleSpeed
{
    /// <summary>Greatest sideways distance from ring to cog (mm). Common practice.</summary>
    internal const double MostChainlineOffsetMm = 2;

    /// <summary>Least up-and-down play in the middle of the chain at its tightest (mm). Common practice, from memory.</summary>
    internal const double LeastPlayMm = 5;

    /// <summary>Greatest up-and-down play in the middle of the chain at its tightest (mm). Common practice, from memory.</summary>
    internal const double MostPlayMm = 15;

    internal static IEnumerable<Target> Tension(Bench bench)
    {
        yield return Check.Of(TargetNames.ChainPlay, WorkStage.Chain, caution: "turning") with
        {
            Lower = LeastPlayMm,
            Upper = MostPlayMm,
            Unit = "mm",
        };
        if (bench.Catalogue.AxleSlides)
        {
            yield return TorqueTargets.First(bench, Fasteners.RearAxle, WorkStage.Chain);
            yield return Check.Of("chain-joined", WorkStage.Chain, "axleTight", "join");
        }
    }
}
