using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>The blocks of one stage of the work, in order.</summary>
internal static class StageBlocks
{
    // Lines that the chain box holds in large figures.
    private static readonly ImmutableHashSet<string> InChainBox =
    [
        TargetNames.DirectPath,
        TargetNames.ChainPitches,
        "chain-count-twice",
    ];

    // The box of gears not to use has a tick of its own.
    private const string GearsTold = "gears-not-to-use";

    /// <summary>Heading, lines and the stage's own boxes.</summary>
    internal static IEnumerable<Block> Of(
        int number,
        WorksheetStage stage,
        StageCautions cautions,
        WorksheetContent content
    )
    {
        if (stage.Stage == WorkStage.Inspection)
        {
            yield return new StopBlock(stage, cautions);
            yield break;
        }
        yield return new StageHeading(
            number,
            stage,
            cautions,
            stage.Stage == WorkStage.Chain
                ? stage.Targets.Any(IsMeasureOutsideBox)
                : stage.Stage != WorkStage.Hanger && stage.Targets.Any(IsMeasure)
        );
        if (stage.Stage == WorkStage.Chain)
        {
            yield return new ChainBlock(
                content.Chain,
                stage.Targets.FirstOrDefault(target => target.Id == TargetNames.DirectPath)
            );
        }
        var hanger =
            stage.Stage == WorkStage.Hanger ? stage.Targets.FirstOrDefault(IsMeasure) : null;
        if (stage.Stage == WorkStage.Hanger && hanger is null)
        {
            yield return new HangerClock(null);
        }
        foreach (var block in Lines(stage, hanger, content))
        {
            yield return block;
        }
        if (stage.Stage == WorkStage.Gap && content.Turns is { } turns)
        {
            yield return new TurnTableBlock(turns);
        }
    }

    private static bool IsMeasure(Target target) =>
        !target.IsTorque && Amount.Of(target).Length > 0;

    private static bool IsMeasureOutsideBox(Target target) =>
        IsMeasure(target) && !InChainBox.Contains(target.Id);

    private static IEnumerable<Block> Lines(
        WorksheetStage stage,
        Target? inClock,
        WorksheetContent content
    )
    {
        var before = stage
            .Targets.Where(target => TightenedBefore.Holds(target, content))
            .ToImmutableArray();
        if (!before.IsEmpty)
        {
            yield return new TightenedBefore(before);
        }
        var ticks = ImmutableArray.CreateBuilder<Target>();
        foreach (var target in stage.Targets)
        {
            if (ReferenceEquals(target, inClock))
            {
                if (ticks.Count > 0)
                {
                    yield return new TickGroup(ticks.ToImmutable());
                    ticks.Clear();
                }
                yield return new HangerClock(target);
                continue;
            }
            if (
                before.Contains(target)
                || (target.Id == GearsTold && !content.GearsNotToUse.IsEmpty)
                || (stage.Stage == WorkStage.Chain && InChainBox.Contains(target.Id))
            )
            {
                continue;
            }
            if (!target.IsTorque && !IsMeasure(target))
            {
                ticks.Add(target);
                continue;
            }
            if (ticks.Count > 0)
            {
                yield return new TickGroup(ticks.ToImmutable());
                ticks.Clear();
            }
            yield return target.IsTorque ? new TorqueRow(target) : new TargetRow(target);
        }
        if (ticks.Count > 0)
        {
            yield return new TickGroup(ticks.ToImmutable());
        }
    }
}
