namespace Cogwright.Setup.Targets;

/// <summary>What comes before anything is adjusted: the stop box, the wheel, the hanger, the bolts.</summary>
internal static class GroundWork
{
    /// <summary>Most cogs of the older practice for the hanger; with more of them the cogs stand closer.</summary>
    private const int MostCogsForWideTolerance = 9;

    /// <summary>Difference at the rim up to nine cogs (mm). Common practice.</summary>
    internal const double WideHangerToleranceMm = 4;

    /// <summary>Difference at the rim from ten cogs (mm). Common practice.</summary>
    internal const double NarrowHangerToleranceMm = 2;

    internal static IEnumerable<Target> Inspection(Bench bench)
    {
        if (bench.Work.Assisted)
        {
            yield return Check.Of("battery-out", WorkStage.Inspection, caution: "battery");
        }
        // The costliest failure of the trade stands first.
        if (bench.ShiftsRear)
        {
            yield return SpokeTargets.Inspection(bench);
        }
        yield return Check.Of("frame-cracks", WorkStage.Inspection, caution: "crack");
        if (bench.Catalogue.HasRearDerailleur)
        {
            yield return Check.Of(
                bench.IsOnAxle ? "axle-interface" : "hanger-thread",
                WorkStage.Inspection
            );
        }
        yield return Check.Of("wheel-spokes", WorkStage.Inspection);
        yield return Check.Of("chain-cog-wear", WorkStage.Inspection, caution: "worn");
        yield return Check.Of("bearing-play", WorkStage.Inspection);
    }

    internal static IEnumerable<Target> WheelSeated(Bench bench)
    {
        // Where the wheel is moved to tension the chain, it can only stand straight so far.
        yield return bench.AxleStaysLoose && !bench.IsOnAxle
            ? Check.Of("wheel-straight", WorkStage.WheelSeated)
            : Check.Of("wheel-seated", WorkStage.WheelSeated, bench.ByMount);
        if (bench.AxleStaysLoose)
        {
            // Tightened later: with the chain's tension, or last, on the set-up cog, when it clamps the derailleur.
            yield break;
        }
        yield return TorqueTargets.First(bench, Fasteners.RearAxle, WorkStage.WheelSeated);
    }

    internal static IEnumerable<Target> Hanger(Bench bench)
    {
        if (!bench.Catalogue.HasRearDerailleur || bench.IsOnAxle)
        {
            yield break;
        }
        yield return TorqueTargets.First(bench, Fasteners.HangerScrews, WorkStage.Hanger);
        var wide = bench.Catalogue.Cogs.Length <= MostCogsForWideTolerance;
        yield return Check.Of(TargetNames.HangerStraight, WorkStage.Hanger, caution: "bend") with
        {
            Lower = 0,
            Upper = wide ? WideHangerToleranceMm : NarrowHangerToleranceMm,
            Unit = "mm",
            Note = Texts.Get(
                wide ? "target.hanger-straight.wide" : "target.hanger-straight.narrow",
                bench.Catalogue.Cogs.Length
            ),
        };
    }

    internal static IEnumerable<Target> Mounting(Bench bench)
    {
        if (TorqueTargets.Applies(bench, Fasteners.Lockring))
        {
            yield return TorqueTargets.First(bench, Fasteners.Lockring, WorkStage.Mounting);
        }
        if (!bench.Catalogue.HasRearDerailleur)
        {
            yield return Check.Of("chainline-offset", WorkStage.Mounting) with
            {
                Lower = 0,
                Upper = SingleSpeed.MostChainlineOffsetMm,
                Unit = "mm",
            };
            yield break;
        }
        if (bench.IsOnAxle)
        {
            yield return Check.Of("body-on-axle", WorkStage.Mounting);
            yield return TorqueTargets.First(bench, Fasteners.Pulleys, WorkStage.Mounting);
            yield break;
        }
        yield return Check.Of("body-tab", WorkStage.Mounting);
        yield return TorqueTargets.First(bench, Fasteners.RearMount, WorkStage.Mounting);
        yield return TorqueTargets.First(bench, Fasteners.Pulleys, WorkStage.Mounting);
    }
}
