using System.Collections.Immutable;
using Cogwright.Files.Classes;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>
/// Fills what a spec leaves out: first from the classes it names, then from common practice. Each value filled in
/// keeps where it came from.
/// </summary>
internal static class Assumed
{
    internal static void Fill(Leaves leaves)
    {
        FillFromClass(leaves, ClassKind.Frame);
        FillFromClass(leaves, ClassKind.Hanger);
        // The derailleur's class may name the class of its cage, so it comes first.
        FillFromClass(leaves, ClassKind.RearDerailleur);
        FillFromClass(leaves, ClassKind.Cage);
        FillFromClass(leaves, ClassKind.FrontDerailleur);
        FillCogs(leaves);
        FillRings(leaves);
        FillGuide(leaves);
    }

    private static void FillFromClass(Leaves leaves, ClassKind kind)
    {
        var group = ClassLibrary.GroupPath(kind);
        if (leaves.Text($"{group}.class") is not { } name)
        {
            return;
        }
        var label = ClassLibrary.Label(kind, name);
        foreach (var (inner, leaf) in ClassLibrary.Values(kind, name).All)
        {
            FillOne(leaves, $"{group}.{inner}", leaf.Value, leaf.Shape, label);
        }
    }

    private static void FillCogs(Leaves leaves)
    {
        if (leaves.Find("cogs.teeth")?.Value is not ImmutableArray<int> teeth)
        {
            return;
        }
        LateralAssumed.FillCogs(leaves, teeth);
        LateralAssumed.FillWheel(leaves);
    }

    private static void FillRings(Leaves leaves)
    {
        var count = leaves.Count("rings");
        var cogs = (leaves.Find("cogs.teeth")?.Value as ImmutableArray<int>?)?.Length ?? 0;
        var hub = leaves.WholeOrNull("cogs.hubSpacing");
        // The largest ring is the outermost.
        var order = Enumerable
            .Range(0, count)
            .OrderByDescending(i => leaves.WholeOrNull($"rings[{i}].teeth") ?? 0)
            .ToList();
        LateralAssumed.FillRings(leaves, order);
        if (CommonPractice.RingLateralsMm(count, cogs, hub) is not { } laterals)
        {
            return;
        }
        for (var place = 0; place < count; place++)
        {
            FillLength(
                leaves,
                $"rings[{order[place]}].lateral",
                laterals[place],
                Texts.Get("class.practice")
            );
        }
    }

    /// <summary>A derailleur swings evenly about the middle of the cassette it was chosen for.</summary>
    private static void FillGuide(Leaves leaves)
    {
        if (
            leaves.HasGroup("rearDerailleur")
            && leaves.Find("cogs.teeth")?.Value is ImmutableArray<int> teeth
            && leaves.NumberOrNull("cogs.smallestLateral") is { } smallest
            && leaves.NumberOrNull("cogs.spacing") is { } spacing
        )
        {
            FillLength(
                leaves,
                "rearDerailleur.guideLateralAtZero",
                smallest - ((teeth.Length - 1) * spacing / 2),
                Texts.Get("class.practice")
            );
        }
    }

    private static void FillLength(Leaves leaves, string path, double valueMm, string from) =>
        FillOne(leaves, path, valueMm, new QuantityShape(Dimension.Length), from);

    private static void FillOne(Leaves leaves, string path, object value, Shape shape, string from)
    {
        if (!leaves.Has(path) && !leaves.HasFailed(path))
        {
            leaves.Set(path, value, shape, from);
        }
    }
}
