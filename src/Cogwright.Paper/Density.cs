namespace Cogwright.Paper;

/// <summary>How much of a caution stands on side one; the full text then stands overleaf.</summary>
internal enum CautionForm
{
    /// <summary>The whole caution.</summary>
    Full,

    /// <summary>Its hazard and its avoidance: first and last sentence.</summary>
    HazardAndAvoidance,

    /// <summary>Its hazard: the first sentence.</summary>
    Hazard,
}

/// <summary>How tightly side one is set. Targets and values keep <see cref="Setting.StandPt"/> in every one.</summary>
/// <param name="TitlePt">Size of what is measured, in words (pt).</param>
/// <param name="TickPt">Size of what is done or looked at, in words (pt).</param>
/// <param name="BoxMm">Height of a write-in box (mm).</param>
/// <param name="Notes">Whether notes and tools stand on side one too.</param>
/// <param name="Cautions">How much of each caution.</param>
/// <param name="TickDetails">Whether gear and convention stand with what is only looked at or done; with a measure they always do.</param>
/// <param name="TopInShort">Whether even the cautions at the top are cut to their hazards.</param>
internal sealed record Density(
    double TitlePt,
    double TickPt,
    double BoxMm,
    bool Notes,
    CautionForm Cautions,
    bool TickDetails = true,
    bool TopInShort = false
)
{
    /// <summary>Whether a caution printed before is printed again in full; else a sign beside the stage points back to it.</summary>
    internal bool RepeatsCautions => Cautions == CautionForm.Full;

    /// <summary>From roomy to tight; the first that fits is taken.</summary>
    internal static IReadOnlyList<Density> FromRoomyToTight { get; } =
    [
        new(14, 14, 9, true, CautionForm.Full),
        new(12, 12, 9, true, CautionForm.Full),
        new(12, 12, 9, false, CautionForm.Full),
        new(12, 12, 8.5, false, CautionForm.HazardAndAvoidance),
        new(11, 11, 8.5, false, CautionForm.HazardAndAvoidance),
        new(10, 10, 8, false, CautionForm.HazardAndAvoidance),
        new(10, 10, 8, false, CautionForm.HazardAndAvoidance, false),
        new(9.5, 9.5, 7.5, false, CautionForm.HazardAndAvoidance, false),
        new(9.5, 9.5, 7.5, false, CautionForm.Hazard, false),
        new(9, 9, 7, false, CautionForm.Hazard, false),
        new(9, 9, 6.8, false, CautionForm.Hazard, false, true),
    ];
}
