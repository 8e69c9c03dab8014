namespace Cogwright.Setup.Targets;

/// <summary>The rear derailleur without its gap: stops, cable or pairing, index.</summary>
internal static class RearTargets
{
    /// <summary>Least charge before units are paired or set (percent). Common practice.</summary>
    internal const double LeastChargePercent = 50;

    internal static IEnumerable<Target> RoughStops(Bench bench)
    {
        if (bench.ShiftsRear)
        {
            yield return Check.Of("rough-stops", WorkStage.RoughStops, bench.ByActuation, "spring");
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
        yield return Check.Of("shifter-released", stage);
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
        if (bench.ShiftsRear)
        {
            yield return Check.Of("outboard-stop", WorkStage.OutboardStop, bench.ByActuation) with
            {
                Gear = Smallest(bench),
            };
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
            yield return Check.Of("index-first", stage) with
            {
                Gear = bench.OnLargeRing(bench.Catalogue.Cogs[1]),
            };
        }
        yield return Check.Of("index-cogs", stage, bench.ByActuation, "turning");
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
            bench.ByActuation,
            "spokes"
        ) with
        {
            Gear = Largest(bench),
        };
        yield return SpokeTargets.InboardStop(bench) with
        {
            Gear = Largest(bench),
        };
        yield return Check.Of("first-shift-largest", stage, caution: "turning") with
        {
            Gear = Largest(bench),
        };
        foreach (var target in ChainTargets.Ends(bench, stage))
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
        yield return Check.Of("inboard-stop-again", stage, bench.ByActuation, "spokes") with
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
