using System.Collections.Immutable;
using Cogwright.Parts;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Swap;

/// <summary>A bike before or after a part is replaced.</summary>
/// <param name="Build">Its parts.</param>
/// <param name="Compatibility">What the rules say of them.</param>
/// <param name="Catalogue">What the model says of it.</param>
/// <param name="Work">How it is shifted and what its makers ask for.</param>
public sealed record SwapSide(
    Build Build,
    CompatibilityReport Compatibility,
    QuantityCatalogue Catalogue,
    WorkSpec Work
);

/// <summary>One target that a replaced part asks for again. Immutable.</summary>
/// <param name="Target">The target, with the new part.</param>
/// <param name="MustRedo">Whether what was set no longer holds; otherwise it is only read again.</param>
/// <param name="Because">The kinds of part that were replaced and spoil it.</param>
/// <param name="WasValue">The aim before, in the target's unit, when it had one and it is now another; null otherwise.</param>
public sealed record SwapStep(
    Target Target,
    bool MustRedo,
    ImmutableArray<PartKind> Because,
    double? WasValue
);

/// <summary>
/// "Replace this part by that one", before the bike is touched: what will no longer work, what will work that did not, and
/// what must be set or read again, in the order of work. Immutable.
/// </summary>
/// <param name="Replaced">The kinds of part that differ.</param>
/// <param name="Worse">Answers that are worse than they were, the worst first.</param>
/// <param name="Better">Answers that are better than they were.</param>
/// <param name="Steps">What must be set or read again, in the order of work.</param>
public sealed record SwapReview(
    ImmutableArray<PartKind> Replaced,
    ImmutableArray<RuleAnswer> Worse,
    ImmutableArray<RuleAnswer> Better,
    ImmutableArray<SwapStep> Steps
)
{
    /// <summary>Compares a bike before and after.</summary>
    /// <exception cref="ArgumentException">The work cannot be done on the bike after; <see cref="WorkCheck"/> says why.</exception>
    public static SwapReview Of(SwapSide before, SwapSide after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        var replaced = Enum.GetValues<PartKind>()
            .Where(kind => !Equals(before.Build[kind], after.Build[kind]))
            .ToImmutableArray();
        return new(
            replaced,
            [.. Moved(before, after, worse: true)],
            [.. Moved(before, after, worse: false)],
            [.. StepsOf(replaced, before, after)]
        );
    }

    private static IEnumerable<RuleAnswer> Moved(SwapSide before, SwapSide after, bool worse)
    {
        var was = before.Compatibility.Answers.ToDictionary(
            answer => answer.RuleId,
            answer => answer.Answer
        );
        // A rule that was not asked before had nothing against it.
        return after.Compatibility.Answers.Where(answer =>
        {
            var old = was.GetValueOrDefault(answer.RuleId, Compatibility.Yes);
            return worse ? answer.Answer < old : answer.Answer > old;
        });
    }

    private static IEnumerable<SwapStep> StepsOf(
        ImmutableArray<PartKind> replaced,
        SwapSide before,
        SwapSide after
    )
    {
        if (replaced.IsEmpty)
        {
            yield break;
        }
        var edges = replaced
            .Select(kind => (Kind: kind, Edge: SwapEdges.Of(kind, CogsAlike(before, after))))
            .ToList();
        var old = TargetList
            .Make(before.Catalogue, before.Work)
            .ToDictionary(target => target.Id, target => target.Value);
        foreach (var target in TargetList.Make(after.Catalogue, after.Work))
        {
            var redo = Because(edges, edge => edge.Redo, target.Stage);
            var look = Because(edges, edge => edge.Look, target.Stage);
            // Every change ends with torques and a test; a target that was not there before is new work.
            var isNew = !old.ContainsKey(target.Id);
            var always = target.Stage is WorkStage.Torque or WorkStage.LoadedTest;
            var was = old.GetValueOrDefault(target.Id);
            // Whatever the trade says of the part: an aim that has moved is set anew.
            var moved = !isNew && IsAnother(was, target.Value);
            if (redo.IsEmpty && look.IsEmpty && !isNew && !always && !moved)
            {
                continue;
            }
            yield return new(
                target,
                !redo.IsEmpty || isNew || moved,
                redo.IsEmpty && !look.IsEmpty ? look
                    : redo.IsEmpty ? replaced
                    : redo,
                moved ? was : null
            );
        }
    }

    private static ImmutableArray<PartKind> Because(
        List<(PartKind Kind, SwapEdge Edge)> edges,
        Func<SwapEdge, ImmutableArray<WorkStage>> stages,
        WorkStage stage
    ) => [.. edges.Where(edge => stages(edge.Edge).Contains(stage)).Select(edge => edge.Kind)];

    /// <summary>Aims that differ by less than a hundredth are the same to any gauge; one that nobody knew is another.</summary>
    private static bool IsAnother(double? was, double? now) =>
        was is { } before && now is { } after
            ? Math.Abs(before - after) >= 0.01
            : was.HasValue != now.HasValue;

    private static bool CogsAlike(SwapSide before, SwapSide after) =>
        before.Catalogue.Cogs.Length == after.Catalogue.Cogs.Length
        && before.Catalogue.CogSpacingMm == after.Catalogue.CogSpacingMm;
}
