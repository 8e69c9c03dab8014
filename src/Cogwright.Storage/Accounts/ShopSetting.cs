namespace Cogwright.Storage;

/// <summary>A value that the shop keeps under a name: its own name, keys of the server, switches.</summary>
public sealed class ShopSetting
{
    /// <summary>Its name, in small letters with dots.</summary>
    public string Name { get; set; } = "";

    /// <summary>Its value; what it means is up to who asks.</summary>
    public string Value { get; set; } = "";

    /// <summary>When it was last changed: 100 ns since the year 1, UTC.</summary>
    public long ChangedTicks { get; set; }
}
