using System.Collections.Immutable;

namespace Cogwright.Log;

/// <summary>What became of many entries.</summary>
/// <param name="Entered">How many entries entered the order, those that had been waiting included.</param>
/// <param name="Known">How many were there already.</param>
/// <param name="Refused">Those refused, with the reason.</param>
public sealed record MergeReport(int Entered, int Known, ImmutableArray<RefusedEntry> Refused);
