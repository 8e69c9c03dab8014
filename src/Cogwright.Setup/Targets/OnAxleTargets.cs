namespace Cogwright.Setup.Targets;

/// <summary>
/// A derailleur on the axle: with the cut chain on the set-up cog it is pulled rearward to its mark, and only then the axle
/// is tightened. Common practice.
/// </summary>
internal static class OnAxleTargets
{
    internal static IEnumerable<Target> SetUpCog(Bench bench)
    {
        if (!bench.IsOnAxle || bench.Catalogue.SetUp is not { } setUp)
        {
            yield break;
        }
        const WorkStage stage = WorkStage.SetUpCog;
        var (ring, cog) = setUp.Gear;
        yield return Check.Of("set-up-cog", stage, caution: "turning") with
        {
            Gear = setUp.Gear,
        };
        var mark = Check.Of("set-up-mark", stage, caution: "springOnAxle");
        yield return mark with
        {
            Gear = setUp.Gear,
            Convention = Texts.Get(
                "convention.set-up-mark",
                ring,
                cog,
                bench.Catalogue.RearEndState
            ),
            Note = setUp.IsSet
                ? Texts.Get("setUp.outcome", setUp.BodyAngleDeg)
                : $"{setUp.What} {setUp.WhatToDo}",
            Source = setUp.IsAssumed ? TargetSource.Assumed : TargetSource.Spec,
        };
        if (bench.Work.Torques.Any(torque => torque.Fastener == Fasteners.RearMount))
        {
            yield return TorqueTargets.First(bench, Fasteners.RearMount, stage);
        }
        yield return TorqueTargets.First(bench, Fasteners.RearAxle, stage);
        yield return Check.Of("set-up-holds", stage) with
        {
            Gear = setUp.Gear,
        };
        yield return Check.Of("chain-joined", stage, "axleTight", "join");
    }
}
