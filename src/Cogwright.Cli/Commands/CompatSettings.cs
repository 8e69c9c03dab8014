using System.ComponentModel;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>compat</c> takes.</summary>
internal sealed class CompatSettings : SpecFileSettings
{
    /// <summary>Parts to fit in the place of those there are.</summary>
    [CommandOption("--with <PART>")]
    [Description("Id of a part to fit instead; may be given several times.")]
    public string[] With { get; init; } = [];
}
