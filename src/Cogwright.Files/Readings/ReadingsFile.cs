using System.Collections.Immutable;

namespace Cogwright.Files;

/// <summary>What one readings file says. Immutable.</summary>
/// <param name="Gauges">The gauges, in the order of the file; each name stands once.</param>
/// <param name="Readings">The readings, in the order of the file.</param>
public sealed record ReadingsFile(
    ImmutableArray<GaugeEntry> Gauges,
    ImmutableArray<ReadingEntry> Readings
);

/// <summary>A gauge and what it can tell apart. Immutable.</summary>
/// <param name="Name">Its name in this file.</param>
/// <param name="Resolution">Its resolution, in <see cref="Unit"/>, or null.</param>
/// <param name="StandardUncertainty">Its standard uncertainty, in <see cref="Unit"/>, or null; an expanded one is already divided by its k.</param>
/// <param name="Unit">mm, °, N·m, %, turns or pitches; empty when the file gives bare numbers: the unit of what is read with it.</param>
/// <param name="Line">Line where it stands, counted from 1.</param>
/// <param name="Column">Column where it stands, counted from 1.</param>
public sealed record GaugeEntry(
    string Name,
    double? Resolution,
    double? StandardUncertainty,
    string Unit,
    int Line,
    int Column
);

/// <summary>One reading. Immutable.</summary>
/// <param name="Quantity">What was read: the name of a target, such as <c>gap</c>. It is not checked here.</param>
/// <param name="RingTeeth">Ring of the gear it was read in, or null when it belongs to no gear.</param>
/// <param name="CogTeeth">Cog of that gear, or null.</param>
/// <param name="Value">The value, in <see cref="Unit"/>.</param>
/// <param name="Unit">mm, °, N·m, %, turns or pitches; empty when the file gives a bare number: the unit of the target.</param>
/// <param name="StandardUncertainty">Standard uncertainty given with the reading itself, in <see cref="Unit"/>, or null.</param>
/// <param name="Gauge">The name of a gauge of the same file, or null.</param>
/// <param name="Convention">How it was read; empty when not said.</param>
/// <param name="Turned">Turns of the adjuster since the last reading of the same quantity in the same gear (clockwise positive), or null.</param>
/// <param name="Line">Line where it stands, counted from 1.</param>
/// <param name="Column">Column where it stands, counted from 1.</param>
public sealed record ReadingEntry(
    string Quantity,
    int? RingTeeth,
    int? CogTeeth,
    double Value,
    string Unit,
    double? StandardUncertainty,
    string? Gauge,
    string Convention,
    double? Turned,
    int Line,
    int Column
)
{
    /// <summary>Line and column of <c>quantity</c>, counted from 1.</summary>
    public (int Line, int Column) QuantityPlace { get; init; } = (Line, Column);

    /// <summary>Line and column of <c>value</c>, counted from 1.</summary>
    public (int Line, int Column) ValuePlace { get; init; } = (Line, Column);
}

/// <summary>The outcome of reading a readings file. Immutable.</summary>
/// <param name="File">The readings, or null when any problem is an error.</param>
/// <param name="Problems">The problems in the order of the file; remarks may stand beside readings.</param>
public sealed record ReadingsReading(ReadingsFile? File, ImmutableArray<FileProblem> Problems);
