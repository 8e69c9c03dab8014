namespace Cogwright.Paper;

/// <summary>Takes a text apart that is too long to be kept on one page.</summary>
internal static class LongText
{
    /// <summary>Lines that any page holds below whatever else stands on it.</summary>
    private const int MostLines = 30;

    /// <summary>The text in pieces of no more lines than a page holds; one piece as a rule, none of an empty text.</summary>
    internal static IEnumerable<string> Pieces(
        Setting setting,
        string text,
        double sizePt,
        bool bold,
        double widthPt
    ) =>
        setting
            .Fit.Wrap(text, sizePt, bold, widthPt)
            .Chunk(MostLines)
            .Select(lines => string.Join(' ', lines));
}
