using System.ComponentModel;
using Cogwright.Cli.Output;
using Cogwright.Drawing;
using Cogwright.Paper;
using Cogwright.Setup;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>worksheet</c> takes beside the spec.</summary>
internal sealed class WorksheetSettings : SpecSettings
{
    /// <summary>The PDF to write.</summary>
    [CommandOption("--out <FILE>")]
    [Description("The PDF to write; named after the bike when left out.")]
    public string? File { get; init; }

    /// <summary>The paper.</summary>
    [CommandOption("--paper <SIZE>")]
    [Description("a4 or letter; a4 when left out.")]
    public string Paper { get; init; } = "a4";
}

/// <summary>The printed worksheet of a job.</summary>
internal sealed class WorksheetCommand(IAnsiConsole console) : Command<WorksheetSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        WorksheetSettings settings,
        CancellationToken cancellationToken
    )
    {
        var paper = PaperOption.Parse(settings.Paper);
        if (Bike.Load(settings, console) is not { } bike)
        {
            return ExitCode.BadInput;
        }
        var content = WorksheetContent.Make(bike.Catalogue, bike.Work);
        var file = settings.File ?? $"{FileName.Of(bike.Spec.Name, "worksheet")}.pdf";
        cancellationToken.ThrowIfCancellationRequested();
        WholeFile.Write(file, Worksheet.Write(content, Drawings(bike), paper));
        WrittenFiles.Report(console, bike, [file], settings.Json);
        return bike.ExitCode;
    }

    /// <summary>The drawings of the second side: where the gap is measured, close up and whole, and all gears.</summary>
    private static System.Collections.Immutable.ImmutableArray<Scene> Drawings(Bike bike)
    {
        // The worksheet lists the assumed values itself.
        var side = SideView.Draw(bike.Table, bike.GapGear, new() { NamesAssumed = false });
        var table = GearTableDrawing.Draw(bike.Table, new() { NamesAssumed = false });
        return bike.Spec.RearDerailleur is null
            ? [side, table]
            : [side, GapView.Draw(bike.Table, bike.GapGear, new() { NamesAssumed = false }), table];
    }
}
