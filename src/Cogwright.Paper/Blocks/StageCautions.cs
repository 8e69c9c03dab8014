using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>The cautions of a stage: those printed there, and whether one printed before holds there too.</summary>
/// <param name="Fresh">Cautions to print.</param>
/// <param name="HoldsEarlier">Whether a sign beside the stage must point back.</param>
internal sealed record StageCautions(ImmutableArray<string> Fresh, bool HoldsEarlier)
{
    /// <summary>The cautions of every stage in order; without repeating, each is printed once.</summary>
    internal static ImmutableArray<StageCautions> Of(WorksheetContent content, bool repeat)
    {
        if (repeat)
        {
            return [.. content.Stages.Select(stage => new StageCautions(stage.Cautions, false))];
        }
        var printed = content.Cautions.ToHashSet();
        var all = ImmutableArray.CreateBuilder<StageCautions>();
        foreach (var stage in content.Stages)
        {
            var fresh = stage.Cautions.Where(printed.Add).ToImmutableArray();
            all.Add(new StageCautions(fresh, fresh.Length < stage.Cautions.Length));
        }
        return all.ToImmutable();
    }
}
