using Microsoft.AspNetCore.Identity;

namespace Cogwright.Storage;

/// <summary>
/// A person who may act in the shop. An entry names its id and never its name, so the name can change and be erased.
/// </summary>
public sealed class Account : IdentityUser<Guid>
{
    /// <summary>The name that a screen and a record show.</summary>
    public string DisplayName { get; set; } = "";

    /// <summary>
    /// The salted hash of the PIN for a quick change of person at a shared tablet; null: no PIN. It says who claimed to act,
    /// no more (docs/theory/log.md).
    /// </summary>
    public string? PinHash { get; set; }

    /// <summary>Whether the account may be used. One that wrote entries is switched off, never deleted.</summary>
    public bool Active { get; set; } = true;

    /// <summary>When it was made: 100 ns since the year 1, UTC, by the server's clock.</summary>
    public long CreatedTicks { get; set; }
}
