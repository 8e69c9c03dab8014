namespace Cogwright.Parts.Rules;

/// <summary>What a rule found, before it is put into words.</summary>
/// <param name="Answer">The answer.</param>
/// <param name="Reserve">As <see cref="RuleAnswer.Reserve"/>; NaN where nothing is measured.</param>
/// <param name="Left">The figure that was compared; NaN without one.</param>
/// <param name="Right">What it was compared with; NaN without one.</param>
/// <param name="Adapter">The adapter that makes it possible, or null.</param>
/// <param name="Case">Which sentence tells it, where a rule has more than one for the answer.</param>
internal readonly record struct Judgement(
    Compatibility Answer,
    double Reserve = double.NaN,
    double Left = double.NaN,
    double Right = double.NaN,
    Part? Adapter = null,
    string Case = ""
)
{
    internal static Judgement Unknown => new(Compatibility.CannotSay);
}
