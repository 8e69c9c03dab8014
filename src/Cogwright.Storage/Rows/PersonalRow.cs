namespace Cogwright.Storage;

/// <summary>A personal datum or a photo, with its salt. Erasing it deletes the row.</summary>
internal sealed class PersonalRow
{
    public byte[] Digest { get; set; } = [];

    public Guid Log { get; set; }

    public string ContentType { get; set; } = "";

    public long SizeBytes { get; set; }

    public long StoredTicks { get; set; }

    public byte[] Salt { get; set; } = [];

    public byte[] Data { get; set; } = [];
}
