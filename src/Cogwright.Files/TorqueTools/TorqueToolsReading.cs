using System.Collections.Immutable;
using Cogwright.Fastening;

namespace Cogwright.Files;

/// <summary>The outcome of reading a file of torque tools. Immutable.</summary>
/// <param name="Tools">
/// The tools in the order of the file, each name once and none with a problem (<see cref="TorqueToolCheck"/>); null when any problem is an error.
/// </param>
/// <param name="Problems">The problems in the order of the file; remarks may stand beside tools.</param>
public sealed record TorqueToolsReading(
    ImmutableArray<TorqueTool>? Tools,
    ImmutableArray<FileProblem> Problems
);
