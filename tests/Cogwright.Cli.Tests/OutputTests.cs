using System.Text.Json;
using Snapshooter.Xunit3;

namespace Cogwright.Cli.Tests;

/// <summary>Non-regression: what people and scripts see stays until a person approves a change.</summary>
public class OutputTests
{
    [Theory]
    [InlineData("solve", "model-example")]
    [InlineData("solve", "single-speed")]
    [InlineData("chain", "gravel-1x13")]
    public void Screen_Command_LooksAsApproved(string command, string spec)
    {
        var (_, output) = CommandLine.Run(command, CommandLine.Spec(spec));
        Snapshot.Match(output, $"{command}-{spec}");
    }

    [Fact]
    public void Help_Program_ListsEveryCommand()
    {
        var (exit, output) = CommandLine.Run("--help");
        Assert.Equal(0, exit);
        foreach (
            var command in new[] { "solve", "chain", "targets", "correct", "draw", "worksheet" }
        )
        {
            Assert.Contains(command, output, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("solve")]
    [InlineData("chain")]
    [InlineData("targets")]
    [InlineData("correct")]
    public void Json_EveryName_IsDocumented(string command)
    {
        var documentation = File.ReadAllText(
            CommandLine.InRepository("docs/how-to/command-line.md")
        );
        string[] args = [command, CommandLine.Spec("gravel-1x13")];
        if (command == "correct")
        {
            args =
            [
                command,
                CommandLine.Spec("model-example"),
                CommandLine.InRepository("demo/readings/model-example.yaml"),
            ];
        }
        foreach (var name in Names(CommandLine.RunJson(args).Json).Distinct())
        {
            Assert.Contains(
                $"`{name}`",
                documentation.Replace("[]`", "`", StringComparison.Ordinal),
                StringComparison.Ordinal
            );
        }
    }

    private static IEnumerable<string> Names(JsonElement json) =>
        json.ValueKind switch
        {
            JsonValueKind.Object => json.EnumerateObject()
                .SelectMany(p => Names(p.Value).Prepend(p.Name)),
            JsonValueKind.Array => json.EnumerateArray().SelectMany(Names),
            _ => [],
        };
}
