using System.Text;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>The parts of the invented workshop, from <c>demo/parts</c>: for trying things out, wherever the program runs.</summary>
public static class DemoParts
{
    private const string Prefix = "Cogwright.Files.DemoParts.";

    private static readonly Lazy<PartLibrary> Read = new(() => new(Files().SelectMany(PartsOf)));

    /// <summary>The library; read when it is first asked for.</summary>
    public static PartLibrary Library => Read.Value;

    private static IEnumerable<string> Files() =>
        typeof(DemoParts)
            .Assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(Prefix, StringComparison.Ordinal))
            .Order(StringComparer.Ordinal);

    private static IEnumerable<Part> PartsOf(string file)
    {
        using var stream =
            typeof(DemoParts).Assembly.GetManifestResourceStream(file)
            ?? throw new InvalidOperationException(file);
        using var reader = new StreamReader(stream, Encoding.UTF8);
        var reading = PartsReader.Read(reader.ReadToEnd(), file);
        // A mistake in the program's own data is a mistake in the program and stops it.
        return reading.Problems.IsEmpty
            ? reading.Parts
            : throw new InvalidOperationException(string.Join('\n', reading.Problems));
    }
}
