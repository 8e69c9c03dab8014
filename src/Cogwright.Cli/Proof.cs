using Cogwright.Measurement;
using Cogwright.Setup;

namespace Cogwright.Cli;

/// <summary>Whether readings prove that all is as it should be; what is only likely, or asked about, does not.</summary>
internal static class Proof
{
    /// <summary>Whether each is within; one that counts towards a result of several is judged with that result.</summary>
    internal static bool Of(IEnumerable<ReadingResult> results) =>
        results.All(result =>
            result.Status is ReadingStatus.OneOfSeveral
            || (result.Judgement?.Verdict == Verdict.Within && result.Questions.IsEmpty)
        );

    /// <summary>Whether the hanger, if it was read, is straight.</summary>
    internal static bool Of(HangerResult? hanger) =>
        hanger is null || (hanger.Judgement?.Verdict == Verdict.Within && hanger.Questions.IsEmpty);
}
