using Cogwright.Log;

namespace Cogwright.Facts;

/// <summary>The log that is the shop's and no bike's: its gauges and its own procedures. Every device of the shop has the same.</summary>
public static class ShopLog
{
    /// <summary>Its id.</summary>
    public static LogId Id { get; } = new(new("6b0f6f0e-6a55-4c1e-9d57-2f4a3c1b8e70"));
}
