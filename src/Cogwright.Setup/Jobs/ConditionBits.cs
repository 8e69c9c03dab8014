using System.Collections.Immutable;
using System.Numerics;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Jobs;

/// <summary>A set of <see cref="MechanismConditions"/>, one bit each in their order.</summary>
/// <param name="Bits">The bits.</param>
internal readonly record struct ConditionBits(ulong Bits)
{
    private static readonly ImmutableDictionary<string, int> Places = MechanismConditions
        .Names.Select((name, i) => (name, i))
        .ToImmutableDictionary(each => each.name, each => each.i);

    private static readonly string Prefix = Subjects.Condition("");

    internal static int Count => MechanismConditions.All.Length;

    internal bool IsEmpty => Bits == 0;

    internal IEnumerable<string> Names
    {
        get
        {
            for (var bits = Bits; bits != 0; bits &= bits - 1)
            {
                yield return MechanismConditions.Names[BitOperations.TrailingZeroCount(bits)];
            }
        }
    }

    /// <summary>The conditions of those names; an unknown name is none of them.</summary>
    internal static ConditionBits Of(IEnumerable<string> names) =>
        new(
            names.Aggregate(
                0UL,
                (bits, name) => bits | (Places.TryGetValue(name, out var i) ? 1UL << i : 0)
            )
        );

    /// <summary>Those among these subjects.</summary>
    internal static ConditionBits OfSubjects(IEnumerable<string> subjects) =>
        Of(
            subjects
                .Where(subject => subject.StartsWith(Prefix, StringComparison.Ordinal))
                .Select(subject => subject[Prefix.Length..])
        );

    /// <summary>The place of a condition, or below 0.</summary>
    internal static int PlaceOf(string name) => Places.GetValueOrDefault(name, -1);

    /// <summary>What ends when a step is done: what it clears, and what cannot hold beside what it makes.</summary>
    internal static ConditionBits EndedBy(ProcedureStep step) =>
        Of(MechanismConditions.EndedBy(step)).Without(Of(step.Makes));

    internal bool Has(int place) => (Bits >> place & 1) != 0;

    internal ConditionBits With(ConditionBits other) => new(Bits | other.Bits);

    internal ConditionBits Without(ConditionBits other) => new(Bits & ~other.Bits);
}
