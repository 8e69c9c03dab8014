namespace Cogwright.Server;

/// <summary>Who makes a request.</summary>
/// <param name="Who">With which rights: exactly one flag.</param>
/// <param name="Account">The account that acts; null: nobody in particular.</param>
/// <param name="Session">The session; null: there is none.</param>
/// <param name="IsTrustedDevice">Whether the session is that of a trusted device.</param>
/// <param name="IsByPin">Whether the person gave a PIN and no password.</param>
internal sealed record Caller(
    Who Who,
    Guid? Account = null,
    Guid? Session = null,
    bool IsTrustedDevice = false,
    bool IsByPin = false
)
{
    /// <summary>Somebody who has not logged in.</summary>
    internal static Caller Nobody { get; } = new(Who.Anonymous);

    /// <summary>Whoever sits at the machine of a fresh install: there is nobody yet to log in as.</summary>
    internal static Caller FreshInstall { get; } = new(Who.Owner);

    /// <summary>For the log: the role.</summary>
    internal string Name => Roles.NameOf(Who);
}
