using System.Globalization;
using Cogwright.Cli.Commands;
using Cogwright.Cli.Output;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli;

/// <summary>The command line: which commands there are and how a run ends.</summary>
public static class CogwrightApp
{
    /// <summary>Runs one command on the real console.</summary>
    /// <param name="args">The arguments after the program's name.</param>
    /// <returns>See <see cref="ExitCode"/>.</returns>
    public static int Run(IReadOnlyList<string> args)
    {
        var console = AnsiConsole.Console;
        if (!console.Profile.Out.IsTerminal)
        {
            // Nobody's terminal decides where a line breaks in a file or a pipe.
            console.Profile.Width = Screen.FileWidth;
        }
        return Run(args, console);
    }

    /// <summary>Runs one command on a given console.</summary>
    public static int Run(IReadOnlyList<string> args, IAnsiConsole console)
    {
        CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        var app = new CommandApp();
        app.Configure(config =>
        {
            config.Settings.Console = console;
            // A misspelt option would else be swallowed, and the answer be one to another question.
            config.UseStrictParsing();
            config.SetInterceptor(new CommandLineCheck());
            config.SetApplicationName("cogwright");
            config.SetExceptionHandler(
                (exception, _) => Failure.Report(console, exception, args.Contains("--json"))
            );
            config
                .AddCommand<SolveCommand>("solve")
                .WithDescription(Texts.Get("command.solve"))
                .WithExample("solve", "demo/specs/model-example.yaml");
            config
                .AddCommand<ChainCommand>("chain")
                .WithDescription(Texts.Get("command.chain"))
                .WithExample("chain", "demo/specs/model-example.yaml", "--json");
            config
                .AddCommand<TargetsCommand>("targets")
                .WithDescription(Texts.Get("command.targets"))
                .WithExample("targets", "demo/specs/road-2x12-wireless.yaml");
            config
                .AddCommand<CorrectCommand>("correct")
                .WithDescription(Texts.Get("command.correct"))
                .WithExample(
                    "correct",
                    "demo/specs/model-example.yaml",
                    "demo/readings/model-example.yaml"
                );
            config
                .AddCommand<IndexCommand>("index")
                .WithDescription(Texts.Get("command.index"))
                .WithExample("index", "demo/specs/touring-3x9-cable.yaml");
            config
                .AddCommand<DrawCommand>("draw")
                .WithDescription(Texts.Get("command.draw"))
                .WithExample(
                    "draw",
                    "demo/specs/model-example.yaml",
                    "--gear",
                    "34/34",
                    "--out",
                    "drawings"
                );
            config
                .AddCommand<TorqueCommand>("torque")
                .WithDescription(Texts.Get("command.torque"))
                .WithExample(
                    "torque",
                    "demo/specs/touring-3x9-cable.yaml",
                    "--tool",
                    "4-20",
                    "--adapter",
                    "45",
                    "--arm",
                    "250"
                );
            config
                .AddCommand<WorksheetCommand>("worksheet")
                .WithDescription(Texts.Get("command.worksheet"))
                .WithExample("worksheet", "demo/specs/model-example.yaml", "--paper", "letter");
            config
                .AddCommand<MeasureCommand>("measure")
                .WithDescription(Texts.Get("command.measure"))
                .WithExample("measure", "demo/specs/measured-2x12.yaml");
            config
                .AddCommand<CompatCommand>("compat")
                .WithDescription(Texts.Get("command.compat"))
                .WithExample("compat", "demo/specs/road-2x12-wireless.yaml");
            config
                .AddCommand<OptionsCommand>("options")
                .WithDescription(Texts.Get("command.options"))
                .WithExample(
                    "options",
                    "demo/specs/touring-3x9-cable.yaml",
                    "--replace",
                    "cassette,rearDerailleur"
                );
            config
                .AddCommand<GearsCommand>("gears")
                .WithDescription(Texts.Get("command.gears"))
                .WithExample("gears", "demo/specs/road-2x12-wireless.yaml", "--tyre", "28-622");
            config
                .AddCommand<RideCommand>("ride")
                .WithDescription(Texts.Get("command.ride"))
                .WithExample(
                    "ride",
                    "demo/specs/touring-3x9-cable.yaml",
                    "--mass",
                    "95",
                    "--power",
                    "150",
                    "--profile",
                    "5 km 2 %; 3 km 8 %"
                );
            config
                .AddCommand<WearCommand>("wear")
                .WithDescription(Texts.Get("command.wear"))
                .WithExample("wear", "demo/wear/gravel-12.yaml", "--calendar", "due.ics");
            config
                .AddCommand<OverviewCommand>("overview")
                .WithDescription(Texts.Get("command.overview"))
                .WithExample("overview", "export", "--csv", "jobs.csv");
            config.AddBranch(
                "procedure",
                procedure =>
                {
                    procedure.SetDescription(Texts.Get("command.procedure"));
                    procedure
                        .AddCommand<ProcedureCheckCommand>("check")
                        .WithDescription(Texts.Get("command.procedure.check"))
                        .WithExample(
                            "procedure",
                            "check",
                            "demo/procedures/chain-replacement.yaml"
                        );
                    procedure
                        .AddCommand<ProcedurePrintCommand>("print")
                        .WithDescription(Texts.Get("command.procedure.print"))
                        .WithExample(
                            "procedure",
                            "print",
                            "demo/procedures/cable-3x9-set-up.yaml",
                            "--spec",
                            "demo/specs/touring-3x9-cable.yaml"
                        );
                }
            );
            config.AddBranch(
                "record",
                record =>
                {
                    record.SetDescription(Texts.Get("command.record"));
                    record
                        .AddCommand<RecordPrintCommand>("print")
                        .WithDescription(Texts.Get("command.record.print"))
                        .WithExample("record", "print", "device.json", "--job", "0195a1f0");
                    record
                        .AddCommand<RecordVerifyCommand>("verify")
                        .WithDescription(Texts.Get("command.record.verify"))
                        .WithExample("record", "verify", "record.pdf", "--log", "export");
                }
            );
        });
        return app.Run(args);
    }
}
