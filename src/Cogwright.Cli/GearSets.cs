using Cogwright.Cli.Output;
using Cogwright.Drivetrain;
using Cogwright.Files;
using Cogwright.Gearing;
using Spectre.Console;

namespace Cogwright.Cli;

/// <summary>Rings, cogs and tyre as the commands about gears take them from a spec and from options.</summary>
internal static class GearSets
{
    /// <summary>The tyre that is taken when none is named; every output says so.</summary>
    internal const string AssumedTyre = "28-622";

    // A spec's fields that the gears rest on: where rings and cogs stand sideways, and how far apart.
    private static readonly string[] Fields =
    [
        "rings",
        "cogs",
        "frame.chainstay",
        "crank",
        "frame.class",
    ];

    /// <summary>A tyre by an option.</summary>
    /// <exception cref="BadInputException">It is none.</exception>
    internal static Tyre Tyre(string option, string? text)
    {
        try
        {
            return Gearing.Tyre.Parse(text ?? AssumedTyre);
        }
        catch (ImpossibleInputException refused)
        {
            throw new BadInputException(Texts.Get("option.says", option, refused.Message));
        }
    }

    /// <summary>A spec that a command names; when it cannot be used, says why and gives null.</summary>
    internal static DrivetrainSpec? Spec(
        SpecFileSettings settings,
        string path,
        IAnsiConsole console
    )
    {
        SpecReading reading;
        using (var stream = InputFile.Open(path))
        {
            reading = SpecReader.Read(stream, path, PartFiles.Library(settings));
        }
        if (reading.Spec is { } file)
        {
            return file.Drivetrain;
        }
        ProblemReport.Write(console, reading.Problems, settings.Json);
        return null;
    }

    /// <summary>What the gears rest on and nobody measured.</summary>
    internal static IEnumerable<Assumption> Assumed(DrivetrainSpec spec) =>
        spec.Assumptions.Where(assumed =>
            Array.Exists(Fields, field => assumed.Path.StartsWith(field, StringComparison.Ordinal))
        );
}
