using System.Globalization;
using System.Resources;

namespace Cogwright.Facts;

/// <summary>The sentences of this room, read from its resources (English now, other languages as satellites).</summary>
internal static class Texts
{
    private static readonly ResourceManager Resources = new(
        "Cogwright.Facts.Texts",
        typeof(Texts).Assembly
    );

    /// <summary>The sentence with that key; a missing key is a mistake in the program and stops it.</summary>
    internal static string Get(string key) =>
        Resources.GetString(key, CultureInfo.CurrentUICulture)
        ?? throw new MissingManifestResourceException(key);

    /// <summary>The sentence with that key, its places filled; numbers are written with a point in every culture.</summary>
    internal static string Get(string key, params ReadOnlySpan<object?> values) =>
        string.Format(CultureInfo.InvariantCulture, Get(key), values);
}
