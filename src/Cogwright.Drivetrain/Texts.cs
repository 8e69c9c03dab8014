using System.Globalization;
using System.Resources;

namespace Cogwright.Drivetrain;

/// <summary>The sentences of this room, read from its resources (English now, other languages as satellites).</summary>
internal static class Texts
{
    private static readonly ResourceManager Resources = new(
        "Cogwright.Drivetrain.Texts",
        typeof(Texts).Assembly
    );

    /// <summary>The sentence with that key; a missing key is a mistake in the program and stops it.</summary>
    internal static string Get(string key) =>
        Resources.GetString(key, CultureInfo.CurrentUICulture)
        ?? throw new MissingManifestResourceException(key);

    /// <summary>The key of a sentence for a derailleur on the axle where that one needs words of its own; else the key itself.</summary>
    internal static string OnAxle(string key, bool isOnAxle) =>
        isOnAxle && Resources.GetString($"{key}.onAxle", CultureInfo.CurrentUICulture) is not null
            ? $"{key}.onAxle"
            : key;

    /// <summary>The sentence with that key, its places filled; numbers are written with a point in every culture.</summary>
    internal static string Get(string key, params ReadOnlySpan<object?> values) =>
        string.Format(CultureInfo.InvariantCulture, Get(key), values);
}
