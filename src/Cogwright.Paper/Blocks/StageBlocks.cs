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
                || (stage.Stage != WorkStage.Hanger && stage.Targets.Any(IsMeasure)),
            stage.Targets.Any(target => target.IsTorque) ? TorqueConvention(stage, content) : null
        );
        if (stage.Stage == WorkStage.Chain)
        {
            yield return new ChainBlock(
                content.Chain,
                stage.Targets.FirstOrDefault(target => target.Id == TargetNames.DirectPath)?.Note
            );
        }
        var hanger =
            stage.Stage == WorkStage.Hanger ? stage.Targets.FirstOrDefault(IsMeasure) : null;
        if (stage.Stage == WorkStage.Hanger)
        {
            yield return new HangerClock(hanger);
        }
        foreach (var block in Lines(stage, hanger))
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

    // How a torque is read is the same for all: it stands once, before the first of them and before the walk-round.
    private static string? TorqueConvention(WorksheetStage stage, WorksheetContent content)
    {
        var torque = stage.Targets.FirstOrDefault(target => target.IsTorque);
        var first = content.Stages.First(each => each.Targets.Any(target => target.IsTorque));
        return
            torque is not { Convention.Length: > 0 }
            || !(stage.Stage is WorkStage.Torque || ReferenceEquals(stage, first))
            ? null
            : Texts.Get("sheet.torqueConvention", torque.Convention);
    }

    private static IEnumerable<Block> Lines(WorksheetStage stage, Target? inClock)
    {
        var ticks = ImmutableArray.CreateBuilder<Target>();
        foreach (var target in stage.Targets)
        {
            if (
                ReferenceEquals(target, inClock)
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
