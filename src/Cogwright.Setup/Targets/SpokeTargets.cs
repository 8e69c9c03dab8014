using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Targets;

/// <summary>The room between derailleur and spokes: told in the stop box and where the inboard stop is proven.</summary>
internal static class SpokeTargets
{
    /// <summary>Before anything is touched: what is known of the room, or what to measure.</summary>
    internal static Target Inspection(Bench bench) =>
        With(Check.Of("spoke-room", WorkStage.Inspection), bench, ClearanceGroup.OnCog);

    /// <summary>At the inboard stop: the room there, after a knock, and of the chain.</summary>
    internal static Target InboardStop(Bench bench) =>
        With(Check.Of("spoke-clearance", WorkStage.InboardStop), bench, ClearanceGroup.AtStop);

    private static Target With(Target target, Bench bench, ClearanceGroup group)
    {
        var facts = bench.Catalogue.Clearances.Where(fact => fact.Group == group).ToList();
        if (facts.Count == 0)
        {
            return target;
        }
        var words = string.Join(" ", facts.Select(fact => fact.Words));
        return target with
        {
            Note = target.Note is null ? words : $"{words} {target.Note}",
            Source = facts.Any(fact => fact.IsAssumed) ? TargetSource.Assumed : target.Source,
        };
    }
}
