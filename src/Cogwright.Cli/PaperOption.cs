using Cogwright.Paper;

namespace Cogwright.Cli;

/// <summary>Reads <c>--paper</c>.</summary>
internal static class PaperOption
{
    /// <summary>The paper, or an error that says what was expected.</summary>
    internal static PaperSize Parse(string text) =>
        text.ToLowerInvariant() switch
        {
            "a4" => PaperSize.A4,
            "letter" => PaperSize.Letter,
            _ => throw new BadInputException(Texts.Get("option.paper", text)),
        };
}
