using System.Collections.Immutable;
using Cogwright.Facts;
using Cogwright.Files;

namespace Cogwright.Web.Bikes;

/// <summary>The invented demo workshop: the specs of <c>demo/specs</c>, carried in the program.</summary>
internal static class DemoWorkshop
{
    private const string Prefix = "demo/";

    private static readonly System.Collections.Concurrent.ConcurrentDictionary<
        string,
        BikeHistory
    > Histories = new(StringComparer.Ordinal);

    /// <summary>What the ids of its bikes begin with.</summary>
    internal const string IdPrefix = "demo-";

    /// <summary>The ids of its bikes.</summary>
    internal static ImmutableArray<string> Ids { get; } =
    [
        .. typeof(DemoWorkshop)
            .Assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(Prefix, StringComparison.Ordinal))
            .Select(name => IdPrefix + name[Prefix.Length..])
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>
    /// What a demo bike is called. The list needs nothing else: to take twelve files apart would keep the first page waiting for
    /// seconds.
    /// </summary>
    internal static string Name(string id)
    {
        const string field = "name:";
        var line = Text(id)
            .Split('\n')
            .First(line => line.StartsWith(field, StringComparison.Ordinal));
        return line[field.Length..].Trim();
    }

    /// <summary>The sheet of a demo bike.</summary>
    internal static SpecSheet Sheet(string id) =>
        SpecSheet.Read(Text(id), id).Sheet ?? throw new InvalidOperationException(id);

    private static string Text(string id)
    {
        var name = Prefix + id[IdPrefix.Length..];
        using var stream =
            typeof(DemoWorkshop).Assembly.GetManifestResourceStream(name)
            ?? throw new KeyNotFoundException(name);
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }

    /// <summary>Its history: one change, the bike itself. Made once, for to take its file apart costs time.</summary>
    internal static BikeHistory History(string id)
    {
        if (!Histories.TryGetValue(id, out var history))
        {
            Histories[id] = history = BikeHistory.Empty.With(
                BikeHistory.Empty.To(Sheet(id), Texts.Get("change.demo"))!
            );
        }
        return history;
    }
}
