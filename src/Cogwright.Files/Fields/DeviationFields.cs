using System.Collections.Immutable;
using Cogwright.Parts;

namespace Cogwright.Files.Fields;

/// <summary>The fields in which a head mechanic answers for parts of which a rule says no.</summary>
internal static class DeviationFields
{
    /// <summary>The list's name.</summary>
    internal const string List = "deviations";

    /// <summary>Most of them; a bike with more is another bike.</summary>
    internal const int Most = 50;

    private static readonly TextShape Text = new();

    internal static Field Deviations { get; } =
        new(
            List,
            new ListShape(
                new GroupShape([
                    new("rule", Text, Need.Required),
                    new("ground", Text, Need.Required),
                    new("reason", Text, Need.Required),
                    new("by", Text, Need.Required),
                ]),
                Most
            ),
            Need.Optional
        );

    internal static ImmutableArray<Deviation> Bind(Leaves leaves) =>
        [
            .. Enumerable
                .Range(0, leaves.Count(List))
                .Select(i => $"{List}[{i}].")
                .Select(p => new Deviation(
                    leaves.Text(p + "rule")!,
                    leaves.Text(p + "ground")!,
                    leaves.Text(p + "reason")!,
                    leaves.Text(p + "by")!
                )),
        ];

    internal static void Set(
        Leaves leaves,
        ImmutableArray<Deviation> deviations,
        Action<string, object> set
    )
    {
        leaves.SetCount(List, deviations.Length);
        for (var i = 0; i < deviations.Length; i++)
        {
            set($"{List}[{i}].rule", deviations[i].RuleId);
            set($"{List}[{i}].ground", deviations[i].Ground);
            set($"{List}[{i}].reason", deviations[i].Reason);
            set($"{List}[{i}].by", deviations[i].By);
        }
    }
}
