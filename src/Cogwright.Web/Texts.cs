using System.Globalization;
using System.Resources;

namespace Cogwright.Web;

/// <summary>Every sentence of this room, by key.</summary>
internal static class Texts
{
    private static readonly ResourceManager Resources = new(
        "Cogwright.Web.Texts",
        typeof(Texts).Assembly
    );

    /// <summary>The sentence, or null when there is none with that key.</summary>
    internal static string? Find(string key) =>
        Resources.GetString(key, CultureInfo.CurrentUICulture);

    /// <summary>The sentence, with its places filled in; numbers with a point.</summary>
    internal static string Get(string key, params ReadOnlySpan<object?> values)
    {
        var text =
            Resources.GetString(key, CultureInfo.CurrentUICulture)
            ?? throw new KeyNotFoundException($"no text for {key}");
        return values.IsEmpty ? text : string.Format(CultureInfo.InvariantCulture, text, values);
    }
}
