using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>The small print under a line of the work, and the cautions above it.</summary>
internal static class SmallPrint
{
    /// <summary>Convention, tool and note of a target, and whether it rests on assumed values.</summary>
    internal static List<string> Lines(Setting setting, Target target, double widthPt)
    {
        var small = new List<string>();
        if (target.Source == TargetSource.Assumed)
        {
            small.Add(Texts.Get("AssumedTarget"));
        }
        if (target.Convention.Length > 0)
        {
            small.Add(target.Convention);
        }
        if (target.Tool is { } tool)
        {
            small.Add(Texts.Get("Tool", tool));
        }
        if (setting.Density.Notes && target.Note is { } note)
        {
            small.Add(note);
        }
        return setting.Fit.Wrap(string.Join(" · ", small), Setting.SmallPt, false, widthPt);
    }

    /// <summary>Cautions, each on lines of its own, to be printed bold.</summary>
    internal static List<string> Cautions(
        Setting setting,
        ImmutableArray<string> cautions,
        double widthPt
    )
    {
        var lines = new List<string>();
        foreach (var caution in cautions)
        {
            lines.AddRange(
                setting.Fit.Wrap(Texts.Get("Caution", caution), Setting.SmallPt, true, widthPt)
            );
        }
        return lines;
    }
}
