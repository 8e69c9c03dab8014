namespace Cogwright.Storage;

/// <summary>A device that logged in. It holds a token, the store only the token's hash; revoking it ends it at once.</summary>
public sealed class DeviceSession
{
    /// <summary>The session.</summary>
    public Guid Id { get; set; }

    /// <summary>Who logged in.</summary>
    public Guid AccountId { get; set; }

    /// <summary>The device, as its entries name it; null if it writes none.</summary>
    public Guid? Device { get; set; }

    /// <summary>What people call the device, for the list of sessions.</summary>
    public string DeviceName { get; set; } = "";

    /// <summary>SHA-256 of the token, 32 bytes.</summary>
    public byte[] TokenHash { get; set; } = [];

    /// <summary>Whether the device is a trusted one, on which people may change by PIN.</summary>
    public bool IsTrusted { get; set; }

    /// <summary>When it began: 100 ns since the year 1, UTC.</summary>
    public long CreatedTicks { get; set; }

    /// <summary>When it was last used: 100 ns since the year 1, UTC.</summary>
    public long LastSeenTicks { get; set; }

    /// <summary>When it ends: 100 ns since the year 1, UTC.</summary>
    public long ExpiresTicks { get; set; }

    /// <summary>When somebody revoked it: 100 ns since the year 1, UTC; null: nobody has.</summary>
    public long? RevokedTicks { get; set; }
}
