namespace Cogwright.Storage;

/// <summary>A part of the shop's library.</summary>
internal sealed class PartRow
{
    public string Id { get; set; } = "";

    /// <summary>Its kind by the name in files; in the content too, and here for whoever reads the table.</summary>
    public string Kind { get; set; } = "";

    public string Name { get; set; } = "";

    public string Maker { get; set; } = "";

    /// <summary>All of it, as <see cref="PartText"/> writes it: the same part is the same text.</summary>
    public string Content { get; set; } = "";

    /// <summary>Whether it came with the demo workshop and nobody has changed it.</summary>
    public bool IsDemo { get; set; }

    public long UpdatedTicks { get; set; }

    /// <summary>The revision of the library that brought it or changed it last.</summary>
    public long Revision { get; set; }
}
