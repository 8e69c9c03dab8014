using Cogwright.Setup;

namespace Cogwright.Paper;

/// <summary>The words of a line of the work as they stand at the stand: the short ones where there are any.</summary>
internal static class ShortWords
{
    /// <summary>What is measured or done.</summary>
    internal static string Title(Target target) => target.TitleInShort ?? target.Title;

    /// <summary>The same with its gear.</summary>
    internal static string TitleWithGear(Target target) =>
        target.Gear is { } gear
            ? Texts.Get("sheet.titleInGear", Title(target), Amount.Gear(gear))
            : Title(target);

    /// <summary>By which convention; empty when plain.</summary>
    internal static string Convention(Target target) =>
        target.ConventionInShort ?? target.Convention;
}
