using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>
/// Fills what a spec leaves out from the parts it names. What the spec says itself stands; classes and common practice come
/// after.
/// </summary>
internal sealed class PartFilling(Leaves leaves, ProblemList problems)
{
    private const string Adjusters = "adjusters";

    internal void Fill(ImmutableArray<Part> parts)
    {
        // An exchangeable piece knows itself better than what it is fixed to.
        foreach (
            var part in parts.OrderBy(part =>
                part.Kind is PartKind.Cage or PartKind.Hanger ? -1 : (int)part.Kind
            )
        )
        {
            FillSpecValues(part);
        }
        var build = new Build(parts);
        foreach (var (kind, field, path) in PartPaths.All)
        {
            if (build[kind] is { } part && !path.StartsWith("shifting.", StringComparison.Ordinal))
            {
                FillOne(part, path, PartPaths.ToSpec(part, field, path));
            }
        }
        FillRings(build[PartKind.Rings]);
        FillShifting(build);
        foreach (var kind in (PartKind[])[PartKind.RearDerailleur, PartKind.RearShifter])
        {
            if (build[kind] is { } part && part.Tag(PartFields.Protocol) is not null)
            {
                FillOne(part, "work.actuation", SpecFields.MotorWireless);
            }
        }
    }

    private void FillRings(Part? part)
    {
        if (
            part is null
            || leaves.StandsInFile(PartPaths.Rings)
            || part.Numbers(PartFields.Teeth) is not { IsEmpty: false } teeth
        )
        {
            return;
        }
        leaves.SetCount(PartPaths.Rings, teeth.Length);
        for (var i = 0; i < teeth.Length; i++)
        {
            FillOne(part, RingPath(i), (int)teeth[teeth.Length - 1 - i]);
        }
    }

    private static string RingPath(int index) =>
        string.Create(CultureInfo.InvariantCulture, $"{PartPaths.Rings}[{index}].teeth");

    /// <summary>Pull and ratio say something together only, and nothing beside programmed positions.</summary>
    private void FillShifting(Build build)
    {
        const string pullPath = "shifting.pull";
        const string ratioPath = "shifting.shiftRatio";
        var derailleur = build[PartKind.RearDerailleur];
        var shifter = build[PartKind.RearShifter];
        var ratio = derailleur is null
            ? null
            : PartPaths.ToSpec(derailleur, PartFields.ShiftRatio, ratioPath);
        var pull = shifter is null ? null : PartPaths.ToSpec(shifter, PartFields.Pull, pullPath);
        if (
            leaves.Has("shifting.positions")
            || leaves.HasFailed(pullPath)
            || leaves.HasFailed(ratioPath)
            || (pull is null && !leaves.Has(pullPath))
            || (ratio is null && !leaves.Has(ratioPath))
        )
        {
            return;
        }
        FillOne(derailleur, ratioPath, ratio);
        FillOne(shifter, pullPath, pull);
    }

    private void FillOne(Part? part, string path, object? value)
    {
        if (
            part is not null
            && value is not null
            && !leaves.Has(path)
            && !leaves.HasFailed(path)
            && !leaves.StandsInFile(path)
        )
        {
            leaves.SetFromPart(path, value, PartPaths.ShapeAt(path)!, part.Id, PlaceOf(part));
        }
    }

    private void FillSpecValues(Part part)
    {
        if (part.SpecValues.IsEmpty)
        {
            return;
        }
        var scratch = new Leaves();
        var taken = new SpecValueReader(scratch);
        foreach (var (path, text) in part.SpecValues)
        {
            if (taken.Read(path, text) is { } wrong)
            {
                var named = PartsFields.PathOf(part.Kind);
                leaves.SetFailed(named);
                problems.Error(PlaceOf(part), named, Texts.Get("part.gives", part.Id, path, wrong));
            }
        }
        // Adjusters of several parts stand one behind the other; any other list is one part's or the spec's.
        var counts = scratch.Counts.ToDictionary(
            list => list.Key,
            list => (Before: leaves.Count(list.Key), list.Value),
            StringComparer.Ordinal
        );
        foreach (var (path, leaf) in scratch.All)
        {
            if (PlaceInLists(path, counts) is { } at)
            {
                FillOneRead(part, at, leaf);
            }
        }
        foreach (var (list, (before, count)) in counts)
        {
            if (!leaves.StandsInFile(list) && (before == 0 || list == Adjusters))
            {
                leaves.SetCount(list, before + count);
            }
        }
    }

    /// <summary>Where a value of the part goes, or null when its list is taken.</summary>
    private string? PlaceInLists(string path, Dictionary<string, (int Before, int Count)> counts)
    {
        var open = path.IndexOf('[', StringComparison.Ordinal);
        if (open < 0)
        {
            return path;
        }
        var list = path[..open];
        if (leaves.StandsInFile(list))
        {
            return null;
        }
        var before = counts.GetValueOrDefault(list).Before;
        if (before == 0)
        {
            return path;
        }
        if (list != Adjusters)
        {
            return null;
        }
        var close = path.IndexOf(']', open);
        var index = int.Parse(
            path.AsSpan(open + 1, close - open - 1),
            CultureInfo.InvariantCulture
        );
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{list}[{before + index}]{path[(close + 1)..]}"
        );
    }

    private void FillOneRead(Part part, string path, Leaf leaf)
    {
        if (!leaves.Has(path) && !leaves.HasFailed(path))
        {
            leaves.SetFromPart(path, leaf.Value, leaf.Shape, part.Id, PlaceOf(part));
        }
    }

    private Place PlaceOf(Part part) => leaves.NearestPlace(PartsFields.PathOf(part.Kind));
}
