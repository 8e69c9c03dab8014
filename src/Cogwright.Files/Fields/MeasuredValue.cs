namespace Cogwright.Files.Fields;

/// <summary>A number with its unit after conversion: mm, °, N·m, %, turns, pitches, or empty when none was written.</summary>
internal sealed record MeasuredValue(double Value, string Unit);
