using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;

namespace Cogwright.Web;

/// <summary>What <c>wwwroot/js/scene.js</c> does for the drawings.</summary>
[SupportedOSPlatform("browser")]
internal static partial class Browser
{
    [JSImport("rules", "scene")]
    internal static partial void Rules(string css);

    [JSImport("show", "scene")]
    internal static partial void Show(string place, string svg);

    [JSImport("showParts", "scene")]
    internal static partial void ShowParts(string place, string markup);

    [JSImport("frames", "scene")]
    internal static partial void Frames(
        string place,
        [JSMarshalAs<JSType.MemoryView>] Span<double> boxes
    );

    [JSImport("move", "scene")]
    internal static partial void Move(
        string place,
        [JSMarshalAs<JSType.MemoryView>] Span<double> numbers,
        int parts,
        int lines,
        int chain,
        bool before,
        string dimensions,
        string title,
        double modelMs,
        double placesMs
    );

    [JSImport("unit", "scene")]
    internal static partial double Unit(string place);

    [JSImport("watch", "scene")]
    internal static partial void Watch(string place, [JSMarshalAs<JSType.Function>] Action zoomed);
}
