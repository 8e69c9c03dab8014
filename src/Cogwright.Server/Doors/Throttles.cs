namespace Cogwright.Server;

/// <summary>What is slowed down, by whom and by what.</summary>
internal sealed class Throttles(TimeProvider clock)
{
    // A person mistypes a few times. A shop behind one address mistypes more often. A name under attack from many addresses is
    // slowed down last, for its owner is too.
    private readonly Throttle byNameAndAddress = new(clock, free: 5);
    private readonly Throttle byAddress = new(clock, free: 30);
    private readonly Throttle byName = new(clock, free: 100);
    private readonly Throttle byPersonAtDevice = new(clock, free: 5);
    private readonly Throttle byDevice = new(clock, free: 15);

    internal (Throttle Throttle, string Key)[] LogIn(string name, string address) =>
        [
            (byNameAndAddress, Hidden(name) + " " + address),
            (byAddress, address),
            (byName, Hidden(name)),
        ];

    internal (Throttle Throttle, string Key)[] Pin(Guid account, Guid session) =>
        [(byPersonAtDevice, $"{account} {session}"), (byDevice, session.ToString())];

    /// <summary>Begins a try.</summary>
    /// <exception cref="ProblemException">It has to wait.</exception>
    internal static void Begin((Throttle Throttle, string Key)[] keys)
    {
        foreach (var (throttle, key) in keys)
        {
            if (throttle.Begin(key) is { } wait)
            {
                throw new ProblemException(Problem.Throttled, Math.Ceiling(wait.TotalSeconds))
                {
                    RetryAfter = wait,
                };
            }
        }
    }

    /// <summary>The try was right: what was counted for this person is forgiven.</summary>
    internal static void Forgive((Throttle Throttle, string Key)[] keys)
    {
        foreach (var (throttle, key) in keys)
        {
            throttle.Forgive(key);
        }
    }

    // Names of any length take the same room, and none lies about in memory.
    private static string Hidden(string name) =>
        Convert.ToHexString(Tokens.HashOf(name.ToUpperInvariant()));
}
