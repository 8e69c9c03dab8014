using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>The room to spokes and frame in the lines at the head of a drawing.</summary>
internal static class ClearanceLines
{
    /// <summary>One line for each clearance, the costliest first; what is too near, or not known, stands out.</summary>
    internal static IEnumerable<(string Text, bool Bold, Stroke Stroke)> Of(ClearanceReport report)
    {
        foreach (var clearance in report.All)
        {
            var what = LateralWords.Of(clearance, report).What;
            yield return clearance.Verdict switch
            {
                ClearanceVerdict.Clear => (what, false, Stroke.Part),
                ClearanceVerdict.CannotSay => (what, true, Stroke.Part),
                _ => (what, true, Stroke.Warning),
            };
        }
    }
}
