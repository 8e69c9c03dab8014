namespace Cogwright.Storage;

/// <summary>An entry that came under the id of another one: kept as evidence.</summary>
internal sealed class RefusedRow
{
    public Guid Log { get; set; }

    public byte[] Hash { get; set; } = [];

    public Guid Id { get; set; }

    public long ReceivedTicks { get; set; }

    public byte[] Encoded { get; set; } = [];
}
