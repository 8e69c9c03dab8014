using System.ComponentModel;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>options</c> takes.</summary>
internal sealed class OptionsSettings : SpecFileSettings
{
    /// <summary>The kinds of part that may be replaced.</summary>
    [CommandOption("--replace <KINDS>")]
    [Description("Kinds of part that may be replaced, such as cassette,chain.")]
    public string? Replace { get; init; }

    /// <summary>Whether only parts in stock come into question.</summary>
    [CommandOption("--in-stock")]
    [Description("Only parts that are in stock.")]
    public bool InStock { get; init; }

    /// <summary>Most options that are listed.</summary>
    [CommandOption("--most <N>")]
    [Description("Most options that are listed; 20 unless told.")]
    public string? MostText { get; init; }

    /// <summary>Most options that are listed.</summary>
    internal int Most => NumberOption.Whole("--most", MostText, Texts.Get("expected.most")) ?? 20;
}
