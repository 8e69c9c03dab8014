namespace Cogwright.Storage;

/// <summary>A link by which a customer sees the record of one job. The store holds only the hash of its token.</summary>
public sealed class CustomerLink
{
    /// <summary>The link, to name it in a list.</summary>
    public Guid Id { get; set; }

    /// <summary>The log of the job.</summary>
    public Guid Log { get; set; }

    /// <summary>SHA-256 of the token, 32 bytes. The token is at least 128 bits of chance.</summary>
    public byte[] TokenHash { get; set; } = [];

    /// <summary>The account that made it.</summary>
    public Guid CreatedBy { get; set; }

    /// <summary>When it was made: 100 ns since the year 1, UTC.</summary>
    public long CreatedTicks { get; set; }

    /// <summary>When it ends: 100 ns since the year 1, UTC.</summary>
    public long ExpiresTicks { get; set; }

    /// <summary>When somebody revoked it: 100 ns since the year 1, UTC; null: nobody has.</summary>
    public long? RevokedTicks { get; set; }
}
