using System.Collections.Concurrent;

namespace Cogwright.Server;

/// <summary>Lets each session search once at a time: a search takes a core for as long as it runs.</summary>
internal sealed class RunningSearches
{
    private readonly ConcurrentDictionary<Guid, bool> sessions = [];

    /// <summary>Begins a search of a session; dispose of it at its end.</summary>
    /// <exception cref="ProblemException">Another one runs.</exception>
    internal IDisposable Begin(Caller caller)
    {
        // Whoever sits at a fresh install has no session; that is one person.
        var session = caller.Session ?? Guid.Empty;
        return sessions.TryAdd(session, true)
            ? new Place(() => sessions.TryRemove(session, out _))
            : throw new ProblemException(Problem.SearchRuns);
    }

    private sealed class Place(Action leave) : IDisposable
    {
        public void Dispose() => leave();
    }
}
