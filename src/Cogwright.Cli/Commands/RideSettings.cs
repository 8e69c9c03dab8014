using System.ComponentModel;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>ride</c> takes beside the spec.</summary>
internal sealed class RideSettings : SpecFileSettings
{
    /// <summary>Mass of bike and rider.</summary>
    [CommandOption("--mass <KG>")]
    [Description("Mass of bike, rider and what they carry, in kg; must be given.")]
    public string? Mass { get; init; }

    /// <summary>Power.</summary>
    [CommandOption("--power <W>")]
    [Description(
        "Power at the pedals in W; or a curve over the gradient such as -3:0,0:180,6:240 (percent:watts); or what can be held for how long, such as 5min:290,60min:220. Must be given."
    )]
    public string? Power { get; init; }

    /// <summary>A file with the road.</summary>
    [CommandOption("--route <FILE>")]
    [Description("The road as a GPX 1.1 file, or as a text of pieces such as 1.2 km 8.5 %.")]
    public string? RoutePath { get; init; }

    /// <summary>The road, typed.</summary>
    [CommandOption("--profile <PIECES>")]
    [Description("The road piece by piece, such as \"5 km 2 %; 800 m -3.5 %\".")]
    public string? Profile { get; init; }

    /// <summary>One gradient.</summary>
    [CommandOption("--gradient <PERCENT>")]
    [Description("A road of one gradient, 5 km long.")]
    public string? Gradient { get; init; }

    /// <summary>The tyre.</summary>
    [CommandOption("--tyre <SIZE>")]
    [Description(
        "Tyre of the driven wheel: its size such as 28-622, or its measured roll-out such as 2105mm; 28-622 is assumed when left out."
    )]
    public string? Tyre { get; init; }

    /// <summary>The cadence range.</summary>
    [CommandOption("--cadence <RPM>")]
    [Description("Cadence range, such as 60-100; that when left out.")]
    public string? Cadence { get; init; }

    /// <summary>The wanted cadence.</summary>
    [CommandOption("--want <RPM>")]
    [Description("Cadence that a gear is chosen for; the middle of the range when left out.")]
    public string? Want { get; init; }

    /// <summary>How the rider sits.</summary>
    [CommandOption("--position <NAME>")]
    [Description("How the rider sits: tops, hoods, drops or aero-bar; hoods when left out.")]
    public string? Position { get; init; }

    /// <summary>Drag area.</summary>
    [CommandOption("--drag-area <M2>")]
    [Description("Drag area in m², when it was measured; instead of --position.")]
    public string? DragArea { get; init; }

    /// <summary>What the tyres roll on.</summary>
    [CommandOption("--surface <NAME>")]
    [Description(
        "The road: smooth-asphalt, rough-asphalt, gravel or soft; smooth-asphalt when left out."
    )]
    public string? Surface { get; init; }

    /// <summary>Rolling resistance.</summary>
    [CommandOption("--rolling <C>")]
    [Description("Coefficient of rolling resistance, when it is known; instead of --surface.")]
    public string? Rolling { get; init; }

    /// <summary>Wind.</summary>
    [CommandOption("--wind <MS>")]
    [Description(
        "Wind at the rider's height in m/s; on a typed road from ahead, negative from behind."
    )]
    public string? WindSpeed { get; init; }

    /// <summary>Where the wind comes from.</summary>
    [CommandOption("--wind-from <DEGREES>")]
    [Description("Where the wind comes from, clockwise from north; with a GPX file.")]
    public string? WindFrom { get; init; }

    /// <summary>Window of the smoothing.</summary>
    [CommandOption("--window <M>")]
    [Description(
        "Window over which the elevation of a GPX file is smoothed, 1 to 5000 m, or 0 for none; 100 when left out."
    )]
    public string? Window { get; init; }

    /// <summary>Top speed.</summary>
    [CommandOption("--top-speed <KMH>")]
    [Description("Speed above which the rider coasts and brakes, in km/h; 60 when left out.")]
    public string? TopSpeed { get; init; }

    /// <summary>Whether gears across are avoided.</summary>
    [CommandOption("--avoid-across")]
    [Description("The rider takes another ring rather than a gear across.")]
    public bool AvoidAcross { get; init; }

    /// <summary>Other set-ups.</summary>
    [CommandOption("--beside <SPEC>")]
    [Description("Another spec whose gears are ridden too; may be given several times.")]
    public string[] Beside { get; init; } = [];

    /// <summary>The kinds of part that may be replaced.</summary>
    [CommandOption("--replace <KINDS>")]
    [Description(
        "rings, cassette or rings,cassette: those of the library that belong together with the bike and are served by its derailleur are ridden too, the best first."
    )]
    public string? Replace { get; init; }

    /// <summary>Whether only parts in stock come into question.</summary>
    [CommandOption("--in-stock")]
    [Description("With --replace: only parts that are in stock.")]
    public bool InStock { get; init; }

    /// <summary>Most sets that are listed.</summary>
    [CommandOption("--most <N>")]
    [Description("With --replace: most sets that are listed; 20 unless told.")]
    public string? MostText { get; init; }

    /// <summary>Most sets that are listed.</summary>
    internal int Most => NumberOption.Whole("--most", MostText, Texts.Get("expected.most")) ?? 20;
}
