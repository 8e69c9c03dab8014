using System.Collections.Immutable;
using Cogwright.Setup.Jobs;

namespace Cogwright.Facts;

/// <summary>A step that devices did without having seen one another. Immutable.</summary>
/// <param name="Versions">What each did, in the order of the log; at least two.</param>
public sealed record StepConflict(ImmutableArray<StepVersion> Versions);

/// <summary>What one device did. Immutable.</summary>
/// <param name="Done">The fact.</param>
/// <param name="Device">The first signs of the device's id.</param>
/// <param name="IsOwn">Whether it was this device.</param>
public sealed record StepVersion(StepDone Done, string Device, bool IsOwn);
