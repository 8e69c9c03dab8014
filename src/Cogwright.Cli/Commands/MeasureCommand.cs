using System.ComponentModel;
using Cogwright.Cli.Output;
using Cogwright.Paper;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>measure</c> takes beside the spec.</summary>
internal sealed class MeasureSettings : SpecSettings
{
    /// <summary>Whether to print the form although the spec holds measurements.</summary>
    [CommandOption("--form")]
    [Description("Print the measuring form although the spec holds measurements.")]
    public bool Form { get; init; }

    /// <summary>The PDF to write.</summary>
    [CommandOption("--out <FILE>")]
    [Description("The measuring form to write; named after the bike when left out.")]
    public string? File { get; init; }

    /// <summary>The paper.</summary>
    [CommandOption("--paper <SIZE>")]
    [Description("a4 or letter; a4 when left out.")]
    public string Paper { get; init; } = "a4";
}

/// <summary>The measuring form; with the figures filled in, what they say of the mechanism.</summary>
internal sealed class MeasureCommand(IAnsiConsole console) : Command<MeasureSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        MeasureSettings settings,
        CancellationToken cancellationToken
    )
    {
        var paper = PaperOption.Parse(settings.Paper);
        if (Bike.Load(settings, console) is not { } bike)
        {
            return ExitCode.BadInput;
        }
        if (bike.Spec.RearDerailleur is null)
        {
            throw new BadInputException(Texts.Get("measure.noDerailleur", settings.SpecPath));
        }
        if (bike.Spec.RearDerailleur.Coaxial is not null)
        {
            throw new BadInputException(Texts.Get("measure.onAxle", settings.SpecPath));
        }
        if (bike.Fit is not { } fit || settings.Form)
        {
            var file = settings.File ?? $"{FileName.Of(bike.Spec.Name, "measuring-form")}.pdf";
            WholeFile.Write(file, MeasuringForm.Write(bike.Spec, paper));
            WrittenFiles.Report(console, bike, [file], settings.Json);
            return bike.Exit(isFine: true);
        }
        if (settings.Json)
        {
            JsonAnswer.Write(console, json => BenchFitJson.Write(json, bike, fit));
        }
        else
        {
            BenchFitScreen.Write(console, bike, fit);
        }
        return bike.Exit(isFine: true);
    }
}
