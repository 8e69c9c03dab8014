using System.Collections.Immutable;
using System.Text.Json;
using Cogwright.Cli.Output;
using Cogwright.Files;
using Cogwright.Parts;
using Cogwright.Setup;
using Cogwright.Setup.Swap;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>Whether the parts of a spec belong together; with other parts named, what comes of fitting those.</summary>
internal sealed class CompatCommand(IAnsiConsole console) : Command<CompatSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        CompatSettings settings,
        CancellationToken cancellationToken
    )
    {
        var library = PartFiles.Library(settings);
        if (PartFiles.Fitting(settings, library, console) is not { } fitting)
        {
            return ExitCode.BadInput;
        }
        var before = fitting.Judge(library);
        if (settings.With.Length == 0)
        {
            Answer(settings, before, null, []);
            return Exit(before.Side.Compatibility);
        }
        var build = PartFiles.With(fitting.Build, settings.With, library);
        var fitted = fitting.Fit(build, keepsChain: true);
        if (fitted.Spec is not { } spec)
        {
            ProblemReport.Write(console, fitted.Problems, settings.Json);
            return ExitCode.BadInput;
        }
        var other = fitting.Judge(spec, library);
        var after = other.Side;
        // Without work there is nothing to set again; what stands in its way is told instead.
        var problems = WorkCheck.Problems(after.Catalogue, after.Work);
        Answer(
            settings,
            other,
            problems.IsEmpty ? SwapReview.Of(before.Side, after) : null,
            [.. problems.Select(problem => problem.Message)]
        );
        return Exit(after.Compatibility);
    }

    private static int Exit(CompatibilityReport report) =>
        report.Overall == Compatibility.Yes ? ExitCode.Fine : ExitCode.Findings;

    private void Answer(
        CompatSettings settings,
        FittedSpec bike,
        SwapReview? swap,
        ImmutableArray<string> noWork
    )
    {
        var (side, spec) = (bike.Side, bike.Table.Spec);
        if (settings.Json)
        {
            JsonAnswer.Write(
                console,
                json =>
                {
                    json.WriteString("name", spec.Name);
                    json.WriteString("overall", JsonAnswer.Name(side.Compatibility.Overall));
                    json.WriteStartArray("answers");
                    foreach (var answer in side.Compatibility.Answers)
                    {
                        json.WriteStartObject();
                        CompatibilityOutput.Write(json, answer);
                        json.WriteEndObject();
                    }
                    json.WriteEndArray();
                    CompatibilityOutput.Write(json, "outdated", side.Compatibility.Outdated);
                    if (swap is not null)
                    {
                        Write(json, swap);
                    }
                    json.Sentences("noWork", noWork);
                    json.Assumed(spec.Assumptions);
                }
            );
            return;
        }
        Screen.Line(console, spec.Name);
        Screen.Heading(console, Texts.Get($"compat.overall.{side.Compatibility.Overall}"));
        if (spec is { Measured.Readings.IsEmpty: false, Fitted.IsEmpty: true })
        {
            Screen.Line(console, Texts.Get("compat.withoutMeasured"));
        }
        CompatibilityOutput.Show(console, side.Compatibility.Answers);
        foreach (var old in side.Compatibility.Outdated)
        {
            Screen.Line(console, Texts.Get("compat.outdated", old.RuleId, old.By, old.Reason));
        }
        foreach (var sentence in noWork)
        {
            Screen.Line(console, sentence);
        }
        if (swap is not null)
        {
            Show(swap);
        }
        Screen.Line(console, Texts.Get("compat.caution"));
        Screen.Assumed(console, spec);
    }

    private void Show(SwapReview swap)
    {
        Screen.Heading(
            console,
            Texts.Get("compat.replaced", string.Join(", ", swap.Replaced.Select(PartKinds.TitleOf)))
        );
        foreach (var answer in swap.Worse)
        {
            Screen.Line(console, Texts.Get("compat.worse", answer.Title, answer.Sentence));
        }
        foreach (var answer in swap.Better)
        {
            Screen.Line(console, Texts.Get("compat.better", answer.Title, answer.Sentence));
        }
        foreach (var step in swap.Steps)
        {
            Screen.Line(
                console,
                Texts.Get(
                    step.MustRedo ? "compat.redo" : "compat.look",
                    step.Target.Title,
                    step is { WasValue: { } was, Target.Value: { } now }
                        ? Texts.Get("compat.moved", was, now, step.Target.Unit)
                        : ""
                )
            );
        }
    }

    private static void Write(Utf8JsonWriter json, SwapReview swap)
    {
        json.WriteStartArray("replaced");
        foreach (var kind in swap.Replaced)
        {
            json.WriteStringValue(PartKinds.NameOf(kind));
        }
        json.WriteEndArray();
        json.WriteStartArray("worse");
        foreach (var answer in swap.Worse)
        {
            json.WriteStringValue(answer.RuleId);
        }
        json.WriteEndArray();
        json.WriteStartArray("better");
        foreach (var answer in swap.Better)
        {
            json.WriteStringValue(answer.RuleId);
        }
        json.WriteEndArray();
        json.WriteStartArray("steps");
        foreach (var step in swap.Steps)
        {
            json.WriteStartObject();
            json.WriteString("target", step.Target.Id);
            json.WriteString("title", step.Target.Title);
            json.WriteString("stage", JsonAnswer.Name(step.Target.Stage));
            json.WriteBoolean("mustRedo", step.MustRedo);
            json.Figure("was", step.WasValue);
            json.Figure("value", step.Target.Value);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }
}
