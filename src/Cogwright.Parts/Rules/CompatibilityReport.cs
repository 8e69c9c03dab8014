using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Parts.Rules;

namespace Cogwright.Parts;

/// <summary>What every rule says of a build, the worst first. Immutable.</summary>
public sealed record CompatibilityReport
{
    private CompatibilityReport(
        ImmutableArray<RuleAnswer> answers,
        ImmutableArray<Deviation> outdated
    )
    {
        Answers = answers;
        Outdated = outdated;
    }

    /// <summary>The answers: what stands in the way first, then by how bad they are and by how little is left.</summary>
    public ImmutableArray<RuleAnswer> Answers { get; }

    /// <summary>Deviations that were accepted on another ground than there is now: they hold no longer.</summary>
    public ImmutableArray<Deviation> Outdated { get; }

    /// <summary>The worst answer that nobody has accepted; <see cref="Compatibility.Yes"/> without any.</summary>
    public Compatibility Overall =>
        Answers
            .Where(answer => answer.Accepted is null)
            .Select(answer => answer.Answer)
            .DefaultIfEmpty(Compatibility.Yes)
            .Min();

    /// <summary>The least reserve of all that is measured, or null when nothing is.</summary>
    public double? Reserve => Answers.Min(answer => answer.Reserve);

    /// <summary>Asks every rule.</summary>
    /// <param name="build">The parts.</param>
    /// <param name="spec">The drivetrain that they make, without <see cref="SpecCheck.Problems"/>; null to ask only the rules that need none.</param>
    /// <param name="deviations">What a head mechanic has accepted, the oldest first.</param>
    public static CompatibilityReport Of(
        Build build,
        DrivetrainSpec? spec,
        params ImmutableArray<Deviation> deviations
    )
    {
        ArgumentNullException.ThrowIfNull(build);
        var answers = ImmutableArray.CreateBuilder<RuleAnswer>();
        foreach (var rule in RuleCatalogue.All)
        {
            if (rule.Asks(build.Places))
            {
                answers.Add(rule.Answer(build.Places, build.Adapters));
            }
        }
        if (spec is not null)
        {
            answers.AddRange(MechanismRules.Of(spec, build).Answers());
        }
        return new(
            [.. Ordered(answers.Select(answer => Accept(answer, deviations)))],
            [
                .. deviations
                    .GroupBy(deviation => deviation.RuleId)
                    .Select(ofRule => ofRule.Last())
                    .Where(deviation =>
                        answers.FirstOrDefault(answer => answer.RuleId == deviation.RuleId)
                            is { } answer
                        && answer.Ground != deviation.Ground
                    ),
            ]
        );
    }

    private static RuleAnswer Accept(RuleAnswer answer, ImmutableArray<Deviation> deviations) =>
        answer with
        {
            // A "cannot say" is measured, not waved through; a "yes" needs no one's word.
            Accepted =
                answer.Answer == Compatibility.No && answer.MayBeAccepted
                    ? deviations.LastOrDefault(d =>
                        d.RuleId == answer.RuleId && d.Ground == answer.Ground
                    )
                    : null,
        };

    private static IOrderedEnumerable<RuleAnswer> Ordered(IEnumerable<RuleAnswer> answers) =>
        answers
            .OrderBy(answer => !answer.Blocks)
            .ThenBy(answer => answer.Answer)
            .ThenBy(answer => answer.Reserve ?? double.PositiveInfinity)
            .ThenBy(answer => answer.RuleId, StringComparer.Ordinal);
}
