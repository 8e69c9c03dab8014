using System.ComponentModel;
using System.Text;
using Cogwright.Cli.Output;
using Cogwright.Drawing;
using Cogwright.Gearing;
using Cogwright.Paper;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>gears</c> takes beside the spec.</summary>
internal sealed class GearsSettings : SpecFileSettings
{
    /// <summary>A second spec to set beside the first.</summary>
    [CommandArgument(1, "[OTHER]")]
    [Description("A second spec, to be set beside the first.")]
    public string? OtherPath { get; init; }

    /// <summary>The tyre.</summary>
    [CommandOption("--tyre <SIZE>")]
    [Description(
        "Tyre of the driven wheel: its size such as 28-622, or its measured roll-out such as 2105mm; 28-622 is assumed when left out."
    )]
    public string? Tyre { get; init; }

    /// <summary>The second spec's tyre.</summary>
    [CommandOption("--other-tyre <SIZE>")]
    [Description("Tyre of the second spec; the first one's when left out.")]
    public string? OtherTyre { get; init; }

    /// <summary>Length of the crank.</summary>
    [CommandOption("--crank <MM>")]
    [Description("Length of the crank in mm, for the gain.")]
    public string? Crank { get; init; }

    /// <summary>Cadences to tell speeds for.</summary>
    [CommandOption("--cadence <RPM>")]
    [Description("Cadences to tell the speed for, such as 60,90; these two when left out.")]
    public string? Cadence { get; init; }

    /// <summary>A drawing to write.</summary>
    [CommandOption("--out <FILE>")]
    [Description("Draw the set-ups on one scale into this file, .svg or .png.")]
    public string? File { get; init; }

    /// <summary>The crank's length (mm), or null.</summary>
    internal double? CrankMm => NumberOption.Parse("--crank", Crank, Texts.Get("expected.crank"));
}

/// <summary>The measures of every gear, steps, doubles, gaps and the best order of shifts; of two specs side by side.</summary>
internal sealed class GearsCommand(IAnsiConsole console) : Command<GearsSettings>
{
    private const int MostCadences = 6;

    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        GearsSettings settings,
        CancellationToken cancellationToken
    )
    {
        var cadences = Cadences(settings.Cadence);
        var crank = settings.CrankMm;
        if (settings.File is { } file && !IsSvg(file) && !IsPng(file))
        {
            throw new BadInputException(Texts.Get("gears.out", file));
        }
        if (settings.OtherTyre is not null && settings.OtherPath is null)
        {
            throw new BadInputException(Texts.Get("gears.otherTyre"));
        }
        var tyre = GearSets.Tyre("--tyre", settings.Tyre);
        var setUps = new List<GearSetUp>();
        foreach (
            var (path, own) in (ReadOnlySpan<(string?, Tyre)>)
                [
                    (settings.SpecPath, tyre),
                    (
                        settings.OtherPath,
                        settings.OtherTyre is null
                            ? tyre
                            : GearSets.Tyre("--other-tyre", settings.OtherTyre)
                    ),
                ]
        )
        {
            if (path is null)
            {
                continue;
            }
            if (GearSets.Spec(settings, path, console) is not { } spec)
            {
                return ExitCode.BadInput;
            }
            setUps.Add(GearSetUp.Of(path, spec, own, crank, cadences));
        }
        Draw(settings.File, setUps, cadences[^1]);
        if (settings.Json)
        {
            JsonAnswer.Write(console, json => GearsJson.Write(json, setUps, settings.Tyre is null));
        }
        else
        {
            GearsScreen.Write(console, setUps, settings.Tyre is null);
        }
        return ExitCode.Fine;
    }

    private static bool IsSvg(string file) =>
        file.EndsWith(".svg", StringComparison.OrdinalIgnoreCase);

    private static bool IsPng(string file) =>
        file.EndsWith(".png", StringComparison.OrdinalIgnoreCase);

    private static void Draw(string? file, IEnumerable<GearSetUp> setUps, double rpm)
    {
        if (file is null)
        {
            return;
        }
        var scene = GearLadderDrawing.Draw([.. setUps.Select(setUp => setUp.Ladder)], rpm);
        WholeFile.Write(
            file,
            IsSvg(file) ? Encoding.UTF8.GetBytes(SvgWriter.Write(scene)) : PngWriter.Write(scene)
        );
    }

    private static double[] Cadences(string? text)
    {
        if (text is null)
        {
            return [60, 90];
        }
        // A comma parts two cadences here; a decimal has a point.
        double[] cadences =
        [
            .. text.Split(',', StringSplitOptions.TrimEntries)
                .Select(each =>
                    NumberOption.Parse("--cadence", each, Texts.Get("expected.cadences"))!.Value
                ),
        ];
        return
            cadences.Length <= MostCadences
            && Array.TrueForAll(cadences, rpm => rpm > 0 && rpm <= GearMeasures.MostRpm)
            ? cadences
            : throw new BadInputException(
                Texts.Get("option.number", "--cadence", text, Texts.Get("expected.cadences"))
            );
    }
}
