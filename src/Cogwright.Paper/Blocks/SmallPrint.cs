using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>The small print under a line of the work, and the cautions above it.</summary>
internal static class SmallPrint
{
    /// <summary>Convention of a target and whether it rests on assumed values; with notes also its tool and note.</summary>
    internal static List<string> Lines(Setting setting, Target target, double widthPt)
    {
        var small = new List<string>();
        if (target.Source == TargetSource.Assumed)
        {
            small.Add(Texts.Get("sheet.assumedTarget"));
        }
        if (target.Convention.Length > 0)
        {
            small.Add(target.Convention);
        }
        // The tool stands with every measure; with a look or a move of the hand only when there is room.
        if (target.Tool is { } tool && (target.Unit.Length > 0 || setting.Density.Notes))
        {
            small.Add(Texts.Get("sheet.tool", tool));
        }
        if (setting.Density.Notes && target.Note is { } note)
        {
            small.Add(note);
        }
        return setting.Fit.Wrap(string.Join(" · ", small), Setting.SmallPt, false, widthPt);
    }

    /// <summary>Cautions in the setting's form, each on lines of its own, to be printed bold.</summary>
    internal static List<string> Cautions(
        Setting setting,
        ImmutableArray<string> cautions,
        double widthPt
    )
    {
        var lines = new List<string>();
        foreach (var caution in cautions)
        {
            var text = Texts.Get("sheet.caution", Form(caution, setting.Density.Cautions));
            lines.AddRange(setting.Fit.Wrap(text, Setting.SmallPt, true, widthPt));
        }
        return lines;
    }

    /// <summary>A caution, or its hazard with or without its avoidance; an ellipsis says that words were left out.</summary>
    internal static string Form(string caution, CautionForm form)
    {
        var first = caution.IndexOf(". ", StringComparison.Ordinal);
        var last = caution.LastIndexOf(". ", StringComparison.Ordinal);
        return form switch
        {
            CautionForm.Hazard when first > 0 => caution[..(first + 1)] + " …",
            CautionForm.HazardAndAvoidance when first > 0 && last > first => string.Concat(
                caution.AsSpan(0, first + 1),
                " … ",
                caution.AsSpan(last + 2)
            ),
            _ => caution,
        };
    }
}
