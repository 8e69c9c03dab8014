using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Bench;
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
        var reading = SpecReader.Read(stream, path, DemoParts.Library);
        var file =
            reading.Spec
            ?? throw new InvalidDataException(string.Join('\n', reading.Problems.AsEnumerable()));
        var spec = file.Drivetrain.Measured is null
            ? file.Drivetrain
            : BenchGeometry.Fit(file.Drivetrain).Spec!;
        return (Path.GetFileNameWithoutExtension(path), spec, file.Work);
    }
}
