using Cogwright.Files.Documents;

namespace Cogwright.Files.Fields;

/// <summary>One value of a file, in the model's unit.</summary>
/// <param name="Value">double, int, string, bool, Point, or an immutable array of int or double?.</param>
/// <param name="Shape">Its shape.</param>
/// <param name="From">The class, or common practice, that it was assumed from; null when file or part gives it.</param>
/// <param name="PartId">The part that gives it; null when none does.</param>
internal sealed record Leaf(object Value, Shape Shape, string? From = null, string? PartId = null);

/// <summary>The values of a file by their paths, such as <c>rings[1].teeth</c>, and the place of everything in it.</summary>
internal sealed class Leaves
{
    private readonly Dictionary<string, Leaf> values = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Place> places = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Place> partPlaces = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> counts = new(StringComparer.Ordinal);
    private readonly HashSet<string> failed = new(StringComparer.Ordinal);

    /// <summary>All values, in no order.</summary>
    internal IEnumerable<KeyValuePair<string, Leaf>> All => values;

    /// <summary>The place of everything that stands in the file, in no order.</summary>
    internal IEnumerable<KeyValuePair<string, Place>> Places => places;

    /// <summary>How many entries each list has.</summary>
    internal IEnumerable<KeyValuePair<string, int>> Counts => counts;

    internal void Set(string path, object value, Shape shape, string? from = null) =>
        values[path] = new(value, shape, from);

    /// <summary>Sets a value that a part gives; its place is where the file names the part.</summary>
    internal void SetFromPart(string path, object value, Shape shape, string partId, Place named)
    {
        values[path] = new(value, shape, null, partId);
        partPlaces[path] = named;
        // A group that only parts give stands where its part is named.
        for (var p = Parent(path); p.Length > 0 && !places.ContainsKey(p); p = Parent(p))
        {
            partPlaces.TryAdd(p, named);
        }
    }

    /// <summary>Sets a value worked out from others; the first of them that a part gives tells which part.</summary>
    internal void SetFrom(
        string path,
        object value,
        Shape shape,
        params ReadOnlySpan<string> inputs
    )
    {
        foreach (var input in inputs)
        {
            if (Find(input)?.PartId is { } part)
            {
                values[path] = new(value, shape, null, part);
                partPlaces[path] = NearestPlace(input);
                return;
            }
        }
        Set(path, value, shape);
    }

    /// <summary>The part that gives the value at that path or the list it is in, or null.</summary>
    internal string? PartAt(string path)
    {
        for (var p = path; p.Length > 0; p = Parent(p))
        {
            if (Find(p) is { } leaf)
            {
                return leaf.PartId;
            }
        }
        return null;
    }

    /// <summary>Whether the file itself says something at that path.</summary>
    internal bool StandsInFile(string path) => places.ContainsKey(path);

    internal void Remove(string path) => values.Remove(path);

    internal void SetPlace(string path, Place place) => places[path] = place;

    internal void SetCount(string path, int count) => counts[path] = count;

    /// <summary>Notes that the field stands in the file but could not be read, so that it is not called missing too.</summary>
    internal void SetFailed(string path) => failed.Add(path);

    internal bool HasFailed(string path) => failed.Contains(path);

    internal bool AnyFailed => failed.Count > 0;

    internal Leaf? Find(string path) => values.GetValueOrDefault(path);

    internal bool Has(string path) => values.ContainsKey(path);

    /// <summary>Whether the group or list stands in the file, or a class supplied part of it.</summary>
    internal bool HasGroup(string path) =>
        places.ContainsKey(path)
        || values.Keys.Any(k => k.StartsWith(path + ".", StringComparison.Ordinal));

    /// <summary>Number of entries in the list at that path, 0 when there is none.</summary>
    internal int Count(string path) => counts.GetValueOrDefault(path);

    internal double Number(string path) => (double)values[path].Value;

    internal double? NumberOrNull(string path) => Find(path)?.Value as double?;

    internal int Whole(string path) => (int)values[path].Value;

    internal int? WholeOrNull(string path) => Find(path)?.Value as int?;

    internal string? Text(string path) => Find(path)?.Value as string;

    internal bool? Flag(string path) => Find(path)?.Value as bool?;

    /// <summary>The place of the field, or of the nearest thing around it that stands in the file.</summary>
    internal Place NearestPlace(string path)
    {
        for (var p = path; p.Length > 0; p = Parent(p))
        {
            if (partPlaces.TryGetValue(p, out var named))
            {
                return named;
            }
            if (places.TryGetValue(p, out var place))
            {
                return place;
            }
        }
        return places.GetValueOrDefault("", Place.Start);
    }

    private static string Parent(string path)
    {
        var cut = path.LastIndexOfAny(['.', '[']);
        return cut < 0 ? "" : path[..cut];
    }
}
