namespace Cogwright.Setup.Targets;

/// <summary>The rear derailleur without its gap: stops, cable or pairing, index.</summary>
internal static class RearTargets
{
    /// <summary>Least charge before units are paired or set (percent). Common practice.</summary>
    internal const double LeastChargePercent = 50;

    internal static IEnumerable<Target> RoughStops(Bench bench)
    {
        if (bench.ShiftsRear && !bench.IsOnAxle)
        {
            yield return Check.Of("rough-stops", WorkStage.RoughStops, bench.ByRear, "spring");
        }
    }

    internal static IEnumerable<Target> CableOrPairing(Bench bench)
    {
        const WorkStage stage = WorkStage.CableOrPairing;
        if (bench.IsMotorDriven)
        {
            yield return Check.Of(
                "battery-charge",
                stage,
                caution: bench.Work.Actuation is Actuation.MotorWireless ? "coinCell" : null
            ) with
            {
                Lower = LeastChargePercent,
                Upper = 100,
                Unit = "%",
            };
            yield return bench.Work.Actuation is Actuation.MotorWireless
                ? Check.Of("pairing", stage)
                : Check.Of("wiring", stage);
            yield break;
        }
        if (!bench.IsCable || !bench.ShiftsRear)
        {
            yield break;
        }
        yield return Check.Of("cable-friction", stage);
        yield return Check.Of(
            "shifter-released",
            stage,
            bench.RestsInboard ? "atRest" : null,
            bench.RestsInboard ? "cableFails" : null
        );
        yield return Check.Of("cable-adjuster", stage) with
        {
            Lower = 1,
            Upper = 2,
            Unit = "turns",
        };
        yield return TorqueTargets.First(bench, Fasteners.RearCable, stage);
        yield return Check.Of("cable-settled", stage, caution: "cableEnds");
    }

    internal static IEnumerable<Target> OutboardStop(Bench bench)
    {
        if (!bench.ShiftsRear || bench.IsOnAxle)
        {
            yield break;
        }
        yield return Check.Of("outboard-stop", WorkStage.OutboardStop, bench.ByRear) with
        {
            Gear = Smallest(bench),
        };
        if (bench.RestsInboard)
        {
            foreach (var target in ChainTargets.LooseEnd(bench, WorkStage.OutboardStop))
            {
                yield return target;
            }
        }
    }

    internal static IEnumerable<Target> Index(Bench bench)
    {
        if (!bench.ShiftsRear || bench.Work.Actuation is Actuation.None)
        {
            yield break;
        }
        const WorkStage stage = WorkStage.Index;
        if (bench.IsMotorDriven)
        {
            yield return Check.Of("index-offset", stage, caution: "force") with
            {
                Gear = bench.OnLargeRing(MiddleCog(bench)),
            };
        }
        else
        {
            yield return Check.Of(
                "index-first",
                stage,
                bench.RestsInboard ? "atRest" : bench.ByMount
            ) with
            {
                Gear = bench.RestsInboard
                    ? bench.OnSmallRing(bench.Catalogue.Cogs[^2])
                    : bench.OnLargeRing(bench.Catalogue.Cogs[1]),
            };
        }
        yield return Check.Of("index-cogs", stage, bench.ByRear, "turning");
    }

    internal static IEnumerable<Target> InboardStop(Bench bench)
    {
        if (!bench.ShiftsRear)
        {
            yield break;
        }
        const WorkStage stage = WorkStage.InboardStop;
        yield return Check.Of(
            TargetNames.InboardStopProven,
            stage,
            bench.ByRear,
            bench.SpokesCaution
        ) with
        {
            Gear = Largest(bench),
        };
        yield return SpokeTargets.InboardStop(bench) with
        {
            Gear = Largest(bench),
        };
        if (bench.RestsInboard)
        {
            // It stands on the largest cog from now on: the chain comes next, and its first turns with it.
            yield break;
        }
        yield return Check.Of("first-shift-largest", stage, bench.ByMount, "turning") with
        {
            Gear = Largest(bench),
        };
        foreach (var target in ChainTargets.Ends(bench, stage))
        {
            yield return target;
        }
    }

    /// <summary>The first turns of the crank with a derailleur that stands on the largest cog when its cable is slack.</summary>
    internal static IEnumerable<Target> FirstTurnsAtRest(Bench bench)
    {
        if (!bench.ShiftsRear || !bench.RestsInboard)
        {
            yield break;
        }
        yield return Check.Of("first-shift-largest", WorkStage.Chain, "atRest", "turning") with
        {
            Gear = Largest(bench),
        };
        yield return SpokeTargets.Chain(bench) with
        {
            Gear = Largest(bench),
        };
        foreach (var target in ChainTargets.TightEnd(bench, WorkStage.Chain))
        {
            yield return target;
        }
    }

    internal static IEnumerable<Target> Again(Bench bench)
    {
        if (!bench.ShiftsRear)
        {
            yield break;
        }
        const WorkStage stage = WorkStage.IndexAgain;
        if (bench.Work.Actuation is not Actuation.None)
        {
            yield return Check.Of("index-again", stage, caution: "turning");
        }
        yield return Check.Of("inboard-stop-again", stage, bench.ByRear, bench.SpokesCaution) with
        {
            Gear = Largest(bench),
        };
        if (bench.IsCable)
        {
            yield return Check.Of("cable-trimmed", stage, caution: "cableEnds");
        }
    }

    private static (int, int) Smallest(Bench bench) =>
        bench.OnLargeRing(bench.Catalogue.SmallestCog);

    private static (int, int) Largest(Bench bench) => bench.OnSmallRing(bench.Catalogue.LargestCog);

    private static int MiddleCog(Bench bench) =>
        bench.Catalogue.Cogs[bench.Catalogue.Cogs.Length / 2];
}
