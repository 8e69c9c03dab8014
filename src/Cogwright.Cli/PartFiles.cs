using System.Collections.Immutable;
using Cogwright.Cli.Output;
using Cogwright.Files;
using Cogwright.Parts;
using Spectre.Console;

namespace Cogwright.Cli;

/// <summary>The parts that a command line names: files of them, ids, kinds.</summary>
internal static class PartFiles
{
    /// <summary>The library of the files named, or the demo workshop's when none is.</summary>
    /// <exception cref="BadInputException">A file has entries that cannot be used.</exception>
    internal static PartLibrary Library(SpecFileSettings settings)
    {
        if (settings.PartsPaths.Length == 0)
        {
            return DemoParts.Library;
        }
        var library = PartLibrary.Empty;
        foreach (var path in settings.PartsPaths)
        {
            using var stream = InputFile.Open(path);
            using var text = new StreamReader(stream);
            var reading = PartsReader.Read(text.ReadToEnd(), path);
            if (reading.Problems.FirstOrDefault(problem => problem.IsError) is { } problem)
            {
                throw new BadInputException(
                    Texts.Get("parts.bad", problem, reading.Problems.Count(p => p.IsError))
                );
            }
            library = library.With(reading.Over(library)).Library;
        }
        return library;
    }

    /// <summary>The spec that parts are fitted to; when it cannot be used, says why and gives null.</summary>
    internal static SpecFitting? Fitting(
        SpecFileSettings settings,
        PartLibrary library,
        IAnsiConsole console
    )
    {
        using var stream = InputFile.Open(settings.SpecPath);
        using var text = new StreamReader(stream);
        var (fitting, reading) = SpecFitting.Of(text.ReadToEnd(), settings.SpecPath, library);
        if (fitting is null)
        {
            ProblemReport.Write(console, reading.Problems, settings.Json);
        }
        return fitting?.WithMeasured();
    }

    /// <summary>The build with these parts in it.</summary>
    /// <exception cref="BadInputException">The library has no such part.</exception>
    internal static Build With(Build build, IEnumerable<string> ids, PartLibrary library) =>
        ids.Aggregate(
            build,
            (all, id) =>
                all.With(
                    library.Find(id) ?? throw new BadInputException(Texts.Get("parts.unknown", id))
                )
        );

    /// <summary>The kinds that an option names, one behind the other.</summary>
    /// <exception cref="BadInputException">None is named, or there is no such kind.</exception>
    internal static ImmutableArray<PartKind> Kinds(string option, string? text)
    {
        var names = PartKinds.All.Where(kind => kind != PartKind.Adapter).Select(PartKinds.NameOf);
        if (text is null || text.AsSpan().Trim([' ', ',']).IsEmpty)
        {
            throw new BadInputException(
                Texts.Get("parts.kindsMissing", option, string.Join(", ", names))
            );
        }
        return
        [
            .. text.Split(
                    ',',
                    StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries
                )
                .Select(name =>
                    PartKinds.Find(name) is { } kind and not PartKind.Adapter
                        ? kind
                        : throw new BadInputException(
                            Texts.Get("parts.kind", option, name, string.Join(", ", names))
                        )
                )
                .Distinct(),
        ];
    }
}
