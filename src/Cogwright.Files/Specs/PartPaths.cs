using System.Collections.Immutable;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>Which field of which part is which field of a spec.</summary>
internal static class PartPaths
{
    /// <summary>Where the rings of a spec stand; each has its own entry.</summary>
    internal const string Rings = "rings";

    private static readonly ImmutableDictionary<string, Shape> Shapes = FieldTable
        .Walk(SpecFields.Spec)
        .ToImmutableDictionary(row => row.Path, row => row.Field.Shape, StringComparer.Ordinal);

    /// <summary>All of them but the rings.</summary>
    internal static ImmutableArray<(PartKind Kind, PartField Field, string Path)> All { get; } =
    [
        (PartKind.Cassette, PartFields.Teeth, "cogs.teeth"),
        (PartKind.Cassette, PartFields.Spacing, "cogs.spacing"),
        (PartKind.Cassette, PartFields.StackWidth, "cogs.stackWidth"),
        (PartKind.Cassette, PartFields.CogThickness, "cogs.thickness"),
        (PartKind.Cassette, PartFields.LocknutGap, "cogs.locknutGap"),
        (PartKind.RearWheel, PartFields.HubSpacing, "cogs.hubSpacing"),
        (PartKind.RearWheel, PartFields.FlangeLateral, "wheel.flangeLateral"),
        (PartKind.RearWheel, PartFields.FlangeRadius, "wheel.flangeRadius"),
        (PartKind.RearWheel, PartFields.RimLateral, "wheel.rimLateral"),
        (PartKind.RearWheel, PartFields.RimRadius, "wheel.rimRadius"),
        (PartKind.Rings, PartFields.RingThickness, "crank.ringThickness"),
        (PartKind.Crank, PartFields.Chainline, "crank.chainline"),
        (PartKind.Crank, PartFields.RingSpacing, "crank.ringSpacing"),
        (PartKind.Chain, PartFields.Width, "chain.width"),
        (PartKind.RearDerailleur, PartFields.ShiftRatio, "shifting.shiftRatio"),
        (PartKind.RearShifter, PartFields.Pull, "shifting.pull"),
    ];

    /// <summary>The shape of the field at a path such as <c>rings[1].teeth</c>, or null when the table has none.</summary>
    internal static Shape? ShapeAt(string path) =>
        Shapes.GetValueOrDefault(SpecOrder.TablePath(path));

    /// <summary>The part's value as a spec holds it, or null when the part has none or the spec cannot hold it.</summary>
    internal static object? ToSpec(Part part, PartField field, string path) =>
        ShapeAt(path) switch
        {
            TeethShape when part.Numbers(field) is { IsEmpty: false } teeth => teeth
                .Select(t => (int)t)
                .ToImmutableArray(),
            LengthsShape when part.Numbers(field) is { IsEmpty: false } lengths => lengths
                .Select(l => (double?)l)
                .ToImmutableArray(),
            // A spec names one of a few hub spacings; a part may have any, and positions follow from it all the same.
            NumberChoiceShape when part.Number(field) is { } number => (int)Math.Round(number),
            QuantityShape or NumberShape => part.Number(field),
            _ => null,
        };

    /// <summary>A spec's value as a part holds it, or null when it is nothing that a part's field holds.</summary>
    internal static PartValue? ToPart(object value) =>
        value switch
        {
            ImmutableArray<int> teeth => new PartValue.Numbers([.. teeth.Select(t => (double)t)]),
            ImmutableArray<double?> lengths when lengths.All(l => l is not null) =>
                new PartValue.Numbers([.. lengths.Select(l => l!.Value)]),
            int number => new PartValue.Number(number),
            double number => new PartValue.Number(number),
            _ => null,
        };
}
