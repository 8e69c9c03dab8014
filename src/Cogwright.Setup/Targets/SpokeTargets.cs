using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Targets;

/// <summary>The room between derailleur and spokes: told in the stop box and where the inboard stop is proven.</summary>
internal static class SpokeTargets
{
    /// <summary>
    /// Before anything is touched: what is known of the room, or that it is not known. The verdict itself is the title,
    /// because paper that is short of room leaves the notes to another side.
    /// </summary>
    internal static Target Inspection(Bench bench)
    {
        var onCog = Of(bench, ClearanceGroup.OnCog);
        // A derailleur that can reach the spokes comes before how it stands on the cog; what a knock would do is told later.
        var dangers = bench
            .Catalogue.Clearances.Where(fact =>
                !fact.AfterKnock && fact.Urgency >= ClearanceUrgency.Close
            )
            .OrderByDescending(fact => fact.Urgency)
            .ToList();
        var facts = dangers.Count > 0 ? dangers : onCog;
        var target = With(
            Check.Of("spoke-room", WorkStage.Inspection),
            facts,
            facts
                .Concat(
                    bench.Catalogue.Clearances.Where(f => f.Urgency == ClearanceUrgency.Unknown)
                )
                .Where(fact => fact.Group is not ClearanceGroup.AtFrame)
                .Select(fact => fact.WhatToDo)
                .Where(words => words.Length > 0)
                .Distinct()
        );
        return facts.Count == 0
            ? target
            : target with
            {
                Title = string.Join(" ", facts.Select(fact => fact.What)),
            };
    }

    /// <summary>
    /// At the inboard stop: its reach, the room there, after a knock, and of the chain where it is on by then. What is not
    /// known is told in one line; the stop box says what to measure.
    /// </summary>
    internal static Target InboardStop(Bench bench)
    {
        var facts = Of(bench, ClearanceGroup.AtStop);
        if (!bench.RestsInboard)
        {
            facts.AddRange(Of(bench, ClearanceGroup.Chain));
        }
        var known = facts.Where(fact => fact.Mm is not null).Select(fact => fact.What).ToList();
        var target = Check.Of(
            "spoke-clearance",
            WorkStage.InboardStop,
            bench.RestsInboard ? "atRest" : null
        );
        if (facts is [{ Mm: { } room }, ..])
        {
            // The costliest comes first: the cage at the stop.
            var key = room > 0 ? "clearance.atStop" : "clearance.atStopTouches";
            var told = Math.Abs(room);
            target = target with
            {
                Title = Texts.Get(Texts.OnAxle(key, bench.IsOnAxle), target.Title, told),
                TitleInShort = Texts.Get(
                    bench.RestsInboard && room > 0 ? $"{key}.atRest.short" : $"{key}.short",
                    told
                ),
            };
        }
        return With(
            target,
            facts,
            facts.Any(fact => fact.Mm is null)
                ? known.Append(Texts.Get("clearance.unknown"))
                : known
        );
    }

    /// <summary>The chain beside the spokes, where it comes on only after the inboard stop was proven.</summary>
    internal static Target Chain(Bench bench)
    {
        var facts = Of(bench, ClearanceGroup.Chain);
        return With(
            Check.Of("chain-clear", WorkStage.Chain),
            facts,
            facts.Where(fact => fact.Mm is not null).Select(fact => fact.What)
        );
    }

    private static List<ClearanceFacts> Of(Bench bench, ClearanceGroup group) =>
        [.. bench.Catalogue.Clearances.Where(fact => fact.Group == group)];

    private static Target With(Target target, List<ClearanceFacts> facts, IEnumerable<string> words)
    {
        var note = string.Join(" ", target.Note is null ? words : words.Append(target.Note));
        return target with
        {
            Note = note.Length == 0 ? null : note,
            Source = facts.Any(fact => fact.IsAssumed) ? TargetSource.Assumed : target.Source,
        };
    }
}
