using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Parts;

namespace Cogwright.Storage.Tests;

/// <summary>Parts of an invented maker: every shape of value among them.</summary>
internal static class InventedParts
{
    internal static Part Cassette(int number, string name = "Fenwold") =>
        new()
        {
            Id = string.Create(CultureInfo.InvariantCulture, $"fenwold-{number}"),
            Kind = PartKind.Cassette,
            Name = string.Create(CultureInfo.InvariantCulture, $"{name} {number}"),
            Maker = "Osmead \"Cogs\" & Söhne",
            Source = "measured",
            InStock = number % 3 == 0 ? null : number % 3,
            Values = ImmutableDictionary<PartField, PartValue>
                .Empty.Add(PartFields.HubDriver, new PartValue.Tags(["spline-35"]))
                .Add(PartFields.Teeth, new PartValue.Numbers([11, 13, 15, 17, 19, 21, 24, 28]))
                .Add(PartFields.CogThickness, new PartValue.Number(1.6 + (number % 7 * 0.1)))
                .Add(PartFields.LocknutGap, new PartValue.Number(6.2)),
            SpecValues = ImmutableSortedDictionary<string, string>.Empty.Add(
                "cogs.thickness",
                "1.6 mm"
            ),
        };

    internal static ImmutableArray<Part> Many(int count) =>
        [.. Enumerable.Range(1, count).Select(number => Cassette(number))];
}
