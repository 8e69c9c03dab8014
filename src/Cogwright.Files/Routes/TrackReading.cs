using System.Collections.Immutable;
using Cogwright.Gearing;

namespace Cogwright.Files;

/// <summary>What was read of a file with a track. Immutable.</summary>
/// <param name="Track">The track, or null when the file cannot be used.</param>
/// <param name="Problems">What is wrong with it, and remarks, in the order of the file.</param>
public sealed record TrackReading(Track? Track, ImmutableArray<FileProblem> Problems);
