namespace Cogwright.Setup.Targets;

/// <summary>What proves the work: on the stand, then under load.</summary>
internal static class TestTargets
{
    internal static IEnumerable<Target> Make(Bench bench)
    {
        const WorkStage stage = WorkStage.LoadedTest;
        if (bench.Catalogue.HasDamper)
        {
            yield return Check.Of(TargetNames.DamperOn, stage);
        }
        if (bench.ShiftsRear || bench.ShiftsFront)
        {
            yield return Check.Of(
                "stand-test",
                stage,
                bench.ShiftsRear ? null : "front",
                "turning"
            );
        }
        if (bench.IsCable && (bench.ShiftsRear || bench.ShiftsFront))
        {
            yield return Check.Of("bar-lock", stage);
        }
        // The crank has been turned by hand for the last time: only now may the motor start.
        if (bench.Work.Assisted)
        {
            yield return Check.Of("battery-in", stage, caution: "batteryIn");
        }
        yield return Check.Of("brakes-first", stage, caution: "brakes");
        yield return Check.Of("loaded-test", stage, bench.ShiftsRear ? null : "single", "release");
        if (bench.Catalogue.GearsNotToUse.Length is > 0 and var left && left < AllGears(bench))
        {
            yield return Check.Of("gears-not-to-use", stage) with
            {
                Note = Texts.Get(
                    "target.gears-not-to-use.list",
                    string.Join(
                        ", ",
                        bench.Catalogue.GearsNotToUse.Select(g => $"{g.RingTeeth}/{g.CogTeeth}")
                    )
                ),
            };
        }
        var single = bench.Catalogue.HasRearDerailleur ? null : "single";
        yield return Check.Of("second-look", stage, bench.ByMount ?? single);
        yield return Check.Of(
            "first-check",
            stage,
            bench.ByMount ?? single ?? (bench.IsMotorDriven ? "motor" : null)
        );
    }

    private static int AllGears(Bench bench) =>
        bench.Catalogue.Rings.Length * bench.Catalogue.Cogs.Length;
}
