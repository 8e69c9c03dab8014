using System.Collections.Immutable;

namespace Cogwright.Log;

/// <summary>What a server says of the entries of one sending.</summary>
/// <param name="Epoch">The life of the server's store that the answers are from.</param>
/// <param name="Answers">One answer for each entry sent.</param>
public sealed record AnswerPage(Guid Epoch, ImmutableArray<Answer> Answers);
