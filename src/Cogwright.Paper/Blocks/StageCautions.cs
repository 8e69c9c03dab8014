using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>The cautions of a stage at the stand: in short, each where it first holds; in full they stand overleaf.</summary>
/// <param name="Fresh">Cautions to print, in the fewest words.</param>
/// <param name="HoldsEarlier">Whether a sign beside the stage must point back to one printed before.</param>
internal sealed record StageCautions(ImmutableArray<string> Fresh, bool HoldsEarlier)
{
    /// <summary>The cautions of every stage in order, each printed once.</summary>
    internal static ImmutableArray<StageCautions> Of(WorksheetContent content)
    {
        var printed = content.Cautions.ToHashSet();
        var all = ImmutableArray.CreateBuilder<StageCautions>();
        foreach (var stage in content.Stages)
        {
            var inShort = InShort(stage.Cautions, stage.CautionsInShort);
            var fresh = Enumerable
                .Range(0, stage.Cautions.Length)
                .Where(i => printed.Add(stage.Cautions[i]))
                // The sign is not parted from the first word.
                .Select(i =>
                    Texts
                        .Get("sheet.caution", inShort[i])
                        .Replace("⚠ ", "⚠\u00a0", StringComparison.Ordinal)
                )
                .ToImmutableArray();
            all.Add(new StageCautions(fresh, fresh.Length < stage.Cautions.Length));
        }
        return all.ToImmutable();
    }

    /// <summary>The short form of each caution, or the full ones where there are no short ones.</summary>
    internal static ImmutableArray<string> InShort(
        ImmutableArray<string> full,
        ImmutableArray<string> inShort
    ) => inShort.Length == full.Length ? inShort : full;

    /// <summary>
    /// The fresh ones in lines to be printed bold: the first line beside a heading with that much room (pt), the others
    /// in the whole width. The first line is empty when nothing fits beside the heading.
    /// </summary>
    internal List<string> Lines(Setting setting, double besidePt, double widthPt)
    {
        if (Fresh.IsEmpty)
        {
            return [""];
        }
        var words = string.Join(' ', Fresh).Split(' ');
        var first = 0;
        while (
            first < words.Length
            && setting.Fit.Width(string.Join(' ', words.Take(first + 1)), Setting.SmallPt, true)
                <= besidePt
        )
        {
            first++;
        }
        // One word alone beside the heading says nothing.
        first = first < 2 && first < words.Length ? 0 : first;
        return
        [
            string.Join(' ', words.Take(first)),
            .. setting.Fit.Wrap(
                string.Join(' ', words.Skip(first)),
                Setting.SmallPt,
                true,
                widthPt
            ),
        ];
    }
}
