using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>The blocks of one stage of the work, in order.</summary>
internal static class StageBlocks
{
    // Lines that the chain box holds in large figures.
    private static readonly ImmutableHashSet<string> InChainBox =
    [
        "direct-path",
        "chain-pitches",
        "chain-count-twice",
    ];

    /// <summary>Heading, lines and the stage's own boxes.</summary>
    internal static IEnumerable<Block> Of(
        int number,
        WorksheetStage stage,
        WorksheetContent content
    )
    {
        if (stage.Stage == WorkStage.Inspection)
        {
            yield return new StopBlock(stage);
            yield break;
        }
        yield return new StageHeading(
            number,
            stage,
            stage.Stage == WorkStage.Chain
                || (stage.Stage != WorkStage.Hanger && stage.Targets.Any(IsMeasure)),
            SharedTorqueConvention(stage)
        );
        if (stage.Stage == WorkStage.Chain)
        {
            yield return new ChainBlock(content.Chain);
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

    private static string? SharedTorqueConvention(WorksheetStage stage)
    {
        var torques = stage.Targets.Where(target => target.IsTorque).ToList();
        return torques.Count == 0 || torques[0].Convention.Length == 0
            ? null
            : Texts.Get("sheet.torqueConvention", torques[0].Convention);
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
