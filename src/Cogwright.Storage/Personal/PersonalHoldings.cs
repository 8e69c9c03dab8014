using System.Collections.Immutable;
using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>The personal data of a log: a device sends what is lacking here and erases its own copies of what was erased.</summary>
/// <param name="Held">What is here, ascending.</param>
/// <param name="Erased">What was erased, ascending.</param>
public sealed record PersonalHoldings(ImmutableArray<Digest> Held, ImmutableArray<Digest> Erased);
