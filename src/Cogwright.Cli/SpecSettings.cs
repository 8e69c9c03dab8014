using System.ComponentModel;
using Spectre.Console.Cli;

namespace Cogwright.Cli;

/// <summary>What every command about a spec takes.</summary>
internal class SpecFileSettings : CommandSettings
{
    /// <summary>The spec file.</summary>
    [CommandArgument(0, "<SPEC>")]
    [Description("The spec file (YAML or JSON).")]
    public required string SpecPath { get; init; }

    /// <summary>Whether to answer as JSON.</summary>
    [CommandOption("--json")]
    [Description("Answer as JSON with stable names.")]
    public bool Json { get; init; }

    /// <summary>Files of parts that the spec may name.</summary>
    [CommandOption("--parts <FILE>")]
    [Description(
        "A file of parts (YAML or CSV) that the spec may name; may be given several times. The demo workshop's unless told."
    )]
    public string[] PartsPaths { get; init; } = [];
}

/// <summary>What every command takes that solves a spec with one chain.</summary>
internal class SpecSettings : SpecFileSettings
{
    /// <summary>A chain length to use instead of the spec's.</summary>
    [CommandOption("--pitches <N>")]
    [Description("Chain length in pitches, instead of the spec's.")]
    public string? PitchesText { get; init; }

    /// <summary>The chain length (pitches), or null.</summary>
    internal int? Pitches =>
        NumberOption.Whole("--pitches", PitchesText, Texts.Get("expected.pitches"));
}
