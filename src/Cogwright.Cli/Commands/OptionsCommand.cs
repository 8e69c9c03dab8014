using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Cogwright.Cli.Output;
using Cogwright.Parts;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>Which parts of the library would make it work.</summary>
internal sealed class OptionsCommand(IAnsiConsole console) : Command<OptionsSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        OptionsSettings settings,
        CancellationToken cancellationToken
    )
    {
        var kinds = PartFiles.Kinds("--replace", settings.Replace);
        if (settings.Most < 1)
        {
            throw new BadInputException(Texts.Get("expected.most"));
        }
        var library = PartFiles.Library(settings);
        if (PartFiles.Fitting(settings, library, console) is not { } fitting)
        {
            return ExitCode.BadInput;
        }
        var question = fitting.Ask(library, kinds, settings.InStock, settings.Most);
        var result = OptionSearch.Find(question, cancellation: cancellationToken);
        if (!result.TooMany.IsEmpty)
        {
            throw new BadInputException(
                Texts.Get(
                    "options.tooMany",
                    string.Join(
                        " × ",
                        result.TooMany.Select(each =>
                            $"{PartKinds.TitleOf(each.Kind)}: {each.Parts}"
                        )
                    ),
                    OptionSearch.MostCombinations,
                    OptionSearch.MostOfAKind
                )
            );
        }
        if (settings.Json)
        {
            JsonAnswer.Write(console, json => Write(json, kinds, result));
        }
        else
        {
            Show(kinds, result);
        }
        return result.Options.IsEmpty ? ExitCode.Findings : ExitCode.Fine;
    }

    private void Show(ImmutableArray<PartKind> kinds, OptionResult result)
    {
        Screen.Line(
            console,
            Texts.Get(
                "options.counted",
                result.Combinations,
                result.ByRules,
                result.Solved,
                result.Options.Length
            )
        );
        if (result.Options.IsEmpty)
        {
            foreach (var (rule, count) in result.Blocking.Take(5))
            {
                Screen.Line(console, Texts.Get("options.blocking", rule, count));
            }
            return;
        }
        var table = Screen.Table([
            "",
            .. kinds.Select(PartKinds.TitleOf),
            Texts.Get("options.answer"),
            Texts.Get("options.reserve"),
            Texts.Get("options.changes"),
            Texts.Get("options.stock"),
        ]);
        foreach (var (option, place) in result.Options.Select((option, i) => (option, i + 1)))
        {
            table.AddRow([
                Screen.Number(place, 0),
                .. kinds.Select(kind => Screen.Plain(option.Build[kind]!.Name)),
                Screen.Plain(Texts.Get($"compat.{option.Answer}")),
                option.Reserve is { } reserve ? Screen.Number(reserve, 1) : Screen.Plain("–"),
                Screen.Number(option.Changes, 0),
                Screen.Plain(Texts.Get($"options.stock.{Stock(option.AllInStock)}")),
            ]);
        }
        console.Write(table);
        Screen.Line(console, Texts.Get("options.reserveMeans"));
        Screen.Line(console, Texts.Get("compat.caution"));
    }

    /// <summary>Whether all that is new is in stock, as a word of JSON and of keys.</summary>
    internal static string Stock(bool? all) =>
        all switch
        {
            true => "yes",
            false => "no",
            null => "unknown",
        };

    private static void Write(
        Utf8JsonWriter json,
        ImmutableArray<PartKind> kinds,
        OptionResult result
    )
    {
        json.WriteNumber("combinations", result.Combinations);
        json.WriteNumber("leftByRules", result.ByRules);
        json.WriteNumber("solved", result.Solved);
        json.WriteStartArray("options");
        foreach (var option in result.Options)
        {
            json.WriteStartObject();
            json.WriteStartObject("parts");
            foreach (var kind in kinds)
            {
                json.WriteString(PartKinds.NameOf(kind), option.Build[kind]!.Id);
            }
            json.WriteEndObject();
            json.WriteString("answer", JsonAnswer.Name(option.Answer));
            json.Figure("reserve", option.Reserve);
            json.WriteNumber("changes", option.Changes);
            json.WriteString("inStock", Stock(option.AllInStock));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("blocking");
        foreach (var (rule, count) in result.Blocking)
        {
            json.WriteStartObject();
            json.WriteString("rule", rule);
            json.WriteString("count", count.ToString(CultureInfo.InvariantCulture));
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }
}
