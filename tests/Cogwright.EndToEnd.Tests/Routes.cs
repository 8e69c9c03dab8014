namespace Cogwright.EndToEnd.Tests;

/// <summary>Every address of the app, for what must hold on every page. A new page is added here.</summary>
public static class Routes
{
    /// <summary>The demo bike that most pages are looked at with.</summary>
    public const string Bike = "demo-touring-3x9-cable";

    /// <summary>The demo bike with suspension.</summary>
    public const string Sprung = "demo-full-suspension-1x12";

    /// <summary>All of them, without the first slash.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        "",
        "new",
        "import",
        "storage",
        "nothing-here",
        $"bike/{Bike}",
        $"bike/{Bike}/gears",
        $"bike/{Bike}/plots",
        $"bike/{Bike}/development",
        $"bike/{Sprung}/plots",
        $"bike/{Bike}/spec",
        $"bike/{Bike}/parts",
        "parts",
        $"bike/{Bike}/measure",
        $"bike/{Bike}/targets",
        $"bike/{Bike}/torques",
        $"bike/{Bike}/job",
        "jobs",
        "gauges",
        "procedures",
    ];
}
