using System.Collections.Immutable;
using Cogwright.Files;

namespace Cogwright.Web.Bikes;

/// <summary>The invented demo workshop: the specs of <c>demo/specs</c>, carried in the program.</summary>
internal static class DemoWorkshop
{
    private const string Prefix = "demo/";

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

    /// <summary>The sheet of a demo bike.</summary>
    internal static SpecSheet Sheet(string id)
    {
        var name = Prefix + id[IdPrefix.Length..];
        using var stream =
            typeof(DemoWorkshop).Assembly.GetManifestResourceStream(name)
            ?? throw new KeyNotFoundException(name);
        using var reader = new StreamReader(stream);
        return SpecSheet.Read(reader.ReadToEnd(), name).Sheet
            ?? throw new InvalidOperationException(name);
    }

    /// <summary>Its history: one change, the bike itself.</summary>
    internal static BikeHistory History(string id) =>
        BikeHistory.Empty.With(
            BikeHistory.Empty.To(Sheet(id), Texts.Get("change.demo"), id + "-0")!
        );
}
