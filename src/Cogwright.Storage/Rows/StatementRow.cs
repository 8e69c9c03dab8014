namespace Cogwright.Storage;

/// <summary>A countersigned statement on a log.</summary>
internal sealed class StatementRow
{
    public Guid Log { get; set; }

    public long Serial { get; set; }

    public byte[] Encoded { get; set; } = [];

    public byte[] Signature { get; set; } = [];
}
