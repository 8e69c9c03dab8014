using System.Text;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>The parts of the invented workshop, from <c>demo/parts</c>: for trying things out, wherever the program runs.</summary>
public static class DemoParts
{
    private const string Prefix = "Cogwright.Files.DemoParts.";

    private static readonly Lazy<PartLibrary> Read = new(() => new(Files().SelectMany(PartsOf)));

    private static PartLibrary? gathered;

    /// <summary>The library; read when it is first asked for.</summary>
    public static PartLibrary Library => gathered ?? Read.Value;

    /// <summary>The library, read file by file where it was not read yet.</summary>
    /// <param name="breathe">Called and awaited after each file, so that a browser with its one thread can draw and take input.</param>
    public static async Task<PartLibrary> ReadAsync(Func<Task> breathe)
    {
        ArgumentNullException.ThrowIfNull(breathe);
        if (gathered is null && !Read.IsValueCreated)
        {
            var parts = new List<Part>();
            foreach (var file in Files())
            {
                parts.AddRange(PartsOf(file));
                await breathe().ConfigureAwait(true);
            }
            gathered ??= new(parts);
        }
        return Library;
    }

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
