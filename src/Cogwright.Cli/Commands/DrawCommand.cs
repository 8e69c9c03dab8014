using System.ComponentModel;
using System.Globalization;
using System.Text;
using Cogwright.Cli.Output;
using Cogwright.Drawing;
using Cogwright.Drivetrain;
using Cogwright.Paper;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>draw</c> takes beside the spec.</summary>
internal sealed class DrawSettings : SpecSettings
{
    /// <summary>The gear to draw.</summary>
    [CommandOption("--gear <RING/COG>")]
    [Description("The gear to draw, such as 34/30; the one in which the gap is set when left out.")]
    public string? Gear { get; init; }

    /// <summary>Whether to draw every gear.</summary>
    [CommandOption("--all")]
    [Description("Draw every gear.")]
    public bool All { get; init; }

    /// <summary>The folder for the drawings.</summary>
    [CommandOption("--out <FOLDER>")]
    [Description("Folder for the drawings; the current one when left out.")]
    public string Folder { get; init; } = ".";

    /// <summary>The scale on paper.</summary>
    [CommandOption("--scale <FACTOR>")]
    [Description(
        "Scale of the side view on paper, 0.05 to 2: 1 prints true to size, 0.35 fits a page."
    )]
    public string? ScaleText { get; init; }

    /// <summary>The scale, or null.</summary>
    internal double? Scale => NumberOption.Parse("--scale", ScaleText, Texts.Get("expected.scale"));

    /// <summary>A travel of the rear end.</summary>
    [CommandOption("--travel <MM>")]
    [Description("Travel of the rear end in mm; at sag when left out.")]
    public string? Travel { get; init; }
}

/// <summary>Side view, top view and gear table as SVG and PNG, to scale.</summary>
internal sealed class DrawCommand(IAnsiConsole console) : Command<DrawSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        DrawSettings settings,
        CancellationToken cancellationToken
    )
    {
        if (settings.Scale is { } scale && !(scale is >= 0.05 and <= 2))
        {
            throw new BadInputException(Texts.Get("option.scale"));
        }
        if (settings.All && settings.Gear is not null)
        {
            throw new BadInputException(Texts.Get("option.gearAndAll"));
        }
        var travel = TravelOption.Parse(settings.Travel, sweepAllowed: false);
        if (Bike.Load(settings, console, travel: travel) is not { } bike)
        {
            return ExitCode.BadInput;
        }
        if (File.Exists(settings.Folder))
        {
            throw new BadInputException(Texts.Get("file.isFile", settings.Folder));
        }
        var scenes = Scenes(settings, bike);
        var written = new List<string>();
        LongWork.Run(
            console,
            Texts.Get("draw.progress"),
            scenes.Count,
            step =>
            {
                var (name, make) = scenes[step];
                cancellationToken.ThrowIfCancellationRequested();
                var scene = make();
                var file = Path.Combine(settings.Folder, FileName.Of(bike.Spec.Name, name));
                WholeFile.Write($"{file}.svg", Encoding.UTF8.GetBytes(SvgWriter.Write(scene)));
                WholeFile.Write($"{file}.png", PngWriter.Write(scene));
                written.Add($"{file}.svg");
                written.Add($"{file}.png");
            }
        );
        WrittenFiles.Report(console, bike, written, settings.Json);
        return bike.ExitCode;
    }

    private static List<(string Name, Func<Scene> Make)> Scenes(DrawSettings settings, Bike bike)
    {
        var options = settings.Scale is { } scale
            ? new SideViewOptions { PaperScale = scale }
            : null;
        var gears = settings.All
            ? bike.Table.Gears.Select(result => result.Gear)
            : [settings.Gear is { } text ? Parse(text, bike) : bike.GapGear];
        var scenes = new List<(string, Func<Scene>)>();
        foreach (var gear in gears)
        {
            scenes.Add(
                (
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"side-view-{gear.RingTeeth}-{gear.CogTeeth}"
                    ),
                    () => SideView.Draw(bike.Table, gear, options)
                )
            );
            scenes.Add(
                (
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"top-view-{gear.RingTeeth}-{gear.CogTeeth}"
                    ),
                    () => TopView.Draw(bike.Table, gear)
                )
            );
        }
        scenes.Add(("gear-table", () => GearTableDrawing.Draw(bike.Table)));
        return scenes;
    }

    private static Gear Parse(string text, Bike bike)
    {
        var parts = text.Split('/', 'x', '×');
        if (
            parts.Length == 2
            && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var ring)
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var cog)
            && bike.Table.Find(new(ring, cog)) is { } gear
        )
        {
            return gear.Gear;
        }
        throw new BadInputException(
            Texts.Get(
                "option.gear",
                text,
                string.Join(", ", bike.Spec.Rings.Select(r => r.Teeth)),
                string.Join(", ", bike.Spec.Cogs.Teeth)
            )
        );
    }
}
