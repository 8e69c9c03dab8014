using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>The small print of a line of the work.</summary>
internal static class SmallPrint
{
    /// <summary>Of a measure: whether it rests on assumed values, its convention and its tool.</summary>
    internal static string OfMeasure(Target target) =>
        Joined(target, ShortWords.Convention(target), target.Tool);

    /// <summary>Of what is only done or looked at: its convention and, where there is room, its tool.</summary>
    internal static string OfTick(Setting setting, Target target) =>
        Joined(
            target,
            setting.Density.TickDetails ? ShortWords.Convention(target) : "",
            setting.Density.TickTools ? target.Tool : null
        );

    private static string Joined(Target target, string convention, string? tool)
    {
        var small = new List<string>();
        if (target.Source == TargetSource.Assumed)
        {
            small.Add(Texts.Get("sheet.assumedTarget"));
        }
        if (convention.Length > 0)
        {
            small.Add(convention);
        }
        if (tool is not null)
        {
            small.Add(small.Count == 0 ? tool : InRow(tool));
        }
        return string.Join(" · ", small);
    }

    /// <summary>A tool in the middle of a line: "Feeler gauge" becomes "feeler gauge", an abbreviation stays.</summary>
    private static string InRow(string tool) =>
        tool.Length > 1 && char.IsLower(tool[1])
            ? char.ToLowerInvariant(tool[0]) + tool[1..]
            : tool;
}
