using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Files;
using Cogwright.Setup;

namespace Cogwright.Paper.Tests;

/// <summary>Every spec of the invented workshop (demo/specs).</summary>
internal static class DemoBikes
{
    /// <summary>The bikes by the name of their file.</summary>
    internal static ImmutableArray<(string Name, DrivetrainSpec Spec, WorkSpec Work)> All { get; } =
    [
        .. Directory
            .EnumerateFiles(Path.Combine(AppContext.BaseDirectory, "specs"), "*.yaml")
            .Order(StringComparer.Ordinal)
            .Select(Read),
    ];

    private static (string, DrivetrainSpec, WorkSpec) Read(string path)
    {
        using var stream = File.OpenRead(path);
        var reading = SpecReader.Read(stream, path);
        var file =
            reading.Spec
            ?? throw new InvalidDataException(string.Join('\n', reading.Problems.AsEnumerable()));
        return (Path.GetFileNameWithoutExtension(path), file.Drivetrain, file.Work);
    }
}
