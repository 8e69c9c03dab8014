namespace Cogwright.Paper;

/// <summary>
/// How tightly side one is set. Targets and values keep <see cref="Setting.StandPt"/> in every one; notes and the full
/// cautions and conventions stand overleaf in every one.
/// </summary>
/// <param name="TitlePt">Size of what is measured, in words (pt).</param>
/// <param name="TickPt">Size of what is done or looked at, in words (pt).</param>
/// <param name="BoxMm">Height of a write-in box (mm).</param>
/// <param name="Flows">Whether short lines to tick share a line of paper.</param>
/// <param name="TickTools">Whether the tool stands with what is only looked at or done; with a measure it always does.</param>
/// <param name="TickDetails">Whether the convention stands with what is only looked at or done; with a measure it always does.</param>
internal sealed record Density(
    double TitlePt,
    double TickPt,
    double BoxMm,
    bool Flows = false,
    bool TickTools = false,
    bool TickDetails = true
)
{
    /// <summary>From roomy to tight; the first that fits is taken.</summary>
    internal static IReadOnlyList<Density> FromRoomyToTight { get; } =
    [
        new(12, 11.5, 9, TickTools: true),
        new(11.5, 11, 8.5),
        new(11, 11, 8),
        new(11, 11, 7.5, Flows: true),
        new(10.5, 10.5, 7.5, Flows: true),
        new(10, 10, 7, Flows: true),
        new(10, 10, 6.5, Flows: true),
        new(9.5, 9.5, 6.5, Flows: true),
        new(9.5, 9.5, 6.2, Flows: true),
        new(9, 9, 6.2, Flows: true),
        new(9, 9, 6.2, Flows: true, TickDetails: false),
    ];
}
