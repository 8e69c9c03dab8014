using System.Collections.Immutable;
using Cogwright.Cli.Output;
using Cogwright.Files;
using Cogwright.Measurement;
using Cogwright.Setup;
using Spectre.Console;

namespace Cogwright.Cli;

/// <summary>
/// Makes readings that can be judged out of a readings file: every one with an uncertainty and in its target's unit.
/// </summary>
/// <param name="Readings">The readings, in the order of the file.</param>
/// <param name="Assumed">For each reading, whether its uncertainty was assumed because the file gives none.</param>
/// <param name="Trial">The last turn of the body-angle screw between two readings of the same gap, or null.</param>
/// <param name="Problems">What cannot be used; then nothing is judged.</param>
internal sealed record ReadingsIntake(
    ImmutableArray<TakenReading> Readings,
    ImmutableArray<bool> Assumed,
    TrialTurn? Trial,
    ImmutableArray<FileProblem> Problems
)
{
    /// <summary>No readings at all.</summary>
    internal static ReadingsIntake None { get; } = new([], [], null, []);

    /// <summary>For each reading, where its quantity is named.</summary>
    internal ImmutableArray<ReadingPlace> Places { get; init; } = [];

    /// <summary>
    /// Standard uncertainty of a distance read at the bike when the file names no gauge (mm): a caliper held freehand
    /// between teeth. Common practice: two mechanics differ by about half a millimetre.
    /// </summary>
    internal const double FreehandMm = 0.25;

    /// <summary>
    /// The same for anything else, as a part of the value: the permissible deviation of a setting torque tool,
    /// 4 % (ISO 6789-1), taken as two standard uncertainties.
    /// </summary>
    internal const double OtherRelative = 0.02;

    /// <summary>Reads a readings file; when it cannot be used, says why on the console (or as JSON) and gives null.</summary>
    internal static ReadingsIntake? Load(
        string path,
        ImmutableArray<Target> targets,
        IAnsiConsole console,
        bool asJson
    )
    {
        ReadingsReading reading;
        using (var stream = InputFile.Open(path))
        {
            reading = ReadingsReader.Read(stream, path);
        }
        if (reading.File is not { } file)
        {
            ProblemReport.Write(console, reading.Problems, asJson);
            return null;
        }
        var intake = Of(file, targets, path);
        if (!intake.Problems.IsEmpty)
        {
            ProblemReport.Write(console, intake.Problems, asJson);
            return null;
        }
        return intake;
    }

    internal static ReadingsIntake Of(
        ReadingsFile file,
        ImmutableArray<Target> targets,
        string fileName
    )
    {
        var readings = ImmutableArray.CreateBuilder<TakenReading>();
        var assumed = ImmutableArray.CreateBuilder<bool>();
        var problems = ImmutableArray.CreateBuilder<FileProblem>();
        TrialTurn? trial = null;
        var places = ImmutableArray.CreateBuilder<ReadingPlace>();
        if (file.Readings.IsEmpty)
        {
            problems.Add(new(fileName, 1, 1, "readings", Texts.Get("reading.none"), true));
        }
        for (var i = 0; i < file.Readings.Length; i++)
        {
            var entry = file.Readings[i];
            var unit =
                targets.FirstOrDefault(target => target.Id == entry.Quantity)?.Unit
                ?? ReadingNames.Unit(entry.Quantity);
            if (entry.Unit.Length > 0 && unit.Length > 0 && entry.Unit != unit)
            {
                problems.Add(
                    new(
                        fileName,
                        entry.ValuePlace.Line,
                        entry.ValuePlace.Column,
                        $"readings[{i}].value",
                        Texts.Get("reading.unit", entry.Quantity, unit, entry.Unit),
                        true
                    )
                );
                continue;
            }
            var uncertainty = Uncertainty(entry, file);
            assumed.Add(uncertainty is null);
            (int, int)? gear = entry is { RingTeeth: { } ring, CogTeeth: { } cog }
                ? (ring, cog)
                : null;
            var taken = new TakenReading(
                entry.Quantity,
                gear,
                new Reading(entry.Value, uncertainty ?? Freehand(entry, unit)),
                entry.Turned
            );
            places.Add(new(fileName, entry.QuantityPlace.Line, entry.QuantityPlace.Column, i));
            trial = TrialOf(entry, taken, readings) ?? trial;
            readings.Add(taken);
        }
        return new(readings.ToImmutable(), assumed.ToImmutable(), trial, problems.ToImmutable())
        {
            Places = places.ToImmutable(),
        };
    }

    /// <summary>The turn that an entry says was made since the last reading of the same quantity in the same gear.</summary>
    private static TrialTurn? TrialOf(
        ReadingEntry entry,
        TakenReading taken,
        ImmutableArray<TakenReading>.Builder before
    )
    {
        if (
            entry.Turned is not { } turns
            || taken.Gear is not { } gear
            || taken.Quantity != TargetNames.Gap
        )
        {
            return null;
        }
        for (var i = before.Count - 1; i >= 0; i--)
        {
            if (before[i].Quantity == taken.Quantity && before[i].Gear == gear)
            {
                return new(gear, before[i].Reading.Value, taken.Reading.Value, turns);
            }
        }
        return null;
    }

    private static double? Uncertainty(ReadingEntry entry, ReadingsFile file)
    {
        if (entry.StandardUncertainty is { } own)
        {
            return own;
        }
        var gauge = file.Gauges.FirstOrDefault(known => known.Name == entry.Gauge);
        return gauge is { StandardUncertainty: { } u }
            ? new Gauge(gauge.Name, gauge.Resolution, u).ReadingUncertainty
            : null;
    }

    private static double Freehand(ReadingEntry entry, string unit) =>
        (entry.Unit.Length > 0 ? entry.Unit : unit) switch
        {
            "mm" => FreehandMm,
            "pitches" => 0,
            _ => Math.Abs(entry.Value) * OtherRelative,
        };
}

/// <summary>Where a reading names its quantity.</summary>
/// <param name="File">The readings file.</param>
/// <param name="Line">Line, counted from 1.</param>
/// <param name="Column">Column, counted from 1.</param>
/// <param name="Index">Which reading of the file, counted from 0.</param>
internal readonly record struct ReadingPlace(string File, int Line, int Column, int Index)
{
    /// <summary>As any other place in a file is written.</summary>
    internal string InWords =>
        Texts.Get("problem.place", File, Line, Column, $"readings[{Index}].quantity");
}
