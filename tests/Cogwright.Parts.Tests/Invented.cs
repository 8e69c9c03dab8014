using System.Collections.Immutable;

namespace Cogwright.Parts.Tests;

/// <summary>Invented parts that belong together, for tests that then change one thing.</summary>
internal static class Invented
{
    internal static Part Wheel { get; } =
        Of(PartKind.RearWheel, "wheel")
            .With(PartFields.HubDriver, Tag("spline-a"))
            .With(PartFields.RearAxle, Tag("through-12"))
            .With(PartFields.HubSpacing, Number(142));

    internal static Part Frame { get; } =
        Of(PartKind.Frame, "frame")
            .With(PartFields.RearAxle, Tag("through-12"))
            .With(PartFields.HubSpacing, Number(142))
            .With(PartFields.DerailleurMount, Tag("tab"))
            .With(PartFields.Shell, Tag("threaded"))
            .With(PartFields.LargestRing, Number(52));

    internal static Part Cassette { get; } =
        Of(PartKind.Cassette, "cassette")
            .With(PartFields.HubDriver, Tag("spline-a"))
            .With(PartFields.Teeth, Numbers(11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 34))
            .With(PartFields.Spacing, Number(3.72));

    internal static Part Rings { get; } =
        Of(PartKind.Rings, "rings")
            .With(PartFields.Teeth, Numbers(34, 50))
            .With(PartFields.RingMount, Tag("bc-110-4"));

    internal static Part Crank { get; } =
        Of(PartKind.Crank, "crank").With(PartFields.Chainline, Number(49));

    internal static Part Derailleur { get; } =
        Of(PartKind.RearDerailleur, "derailleur")
            .With(PartFields.DerailleurMount, Tag("tab"))
            .With(PartFields.ShiftRatio, Number(1.38))
            .With(PartFields.LargestCog, Number(34))
            .With(PartFields.SmallestLargestCog, Number(28))
            .With(PartFields.Capacity, Number(39));

    internal static Part Shifter { get; } =
        Of(PartKind.RearShifter, "shifter")
            .With(PartFields.Speeds, Number(11))
            .With(PartFields.Pull, Numbers(2.7, 2.7, 2.7, 2.7, 2.7, 2.7, 2.7, 2.7, 2.7, 2.7));

    internal static Part Of(PartKind kind, string id) =>
        new()
        {
            Id = id,
            Kind = kind,
            Name = $"the {id}",
        };

    internal static PartValue Tag(params string[] names) => new PartValue.Tags([.. names]);

    internal static PartValue Number(double value) => new PartValue.Number(value);

    internal static PartValue Numbers(params double[] values) => new PartValue.Numbers([.. values]);

    internal static ImmutableArray<double> Same(double value, int times) =>
        [.. Enumerable.Repeat(value, times)];

    /// <summary>What the rule of that id says of a build.</summary>
    internal static RuleAnswer Asked(this Build build, string rule) =>
        CompatibilityReport.Of(build, null).Answers.Single(answer => answer.RuleId == rule);
}
