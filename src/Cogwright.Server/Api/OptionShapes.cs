using System.Collections.Immutable;
using Cogwright.Parts;

namespace Cogwright.Server;

/// <summary>Asks which parts of the library would work.</summary>
/// <param name="Spec">The text of the spec, YAML or JSON.</param>
/// <param name="Kinds">The kinds of part that may be replaced, or are still to be chosen, by their names in files.</param>
/// <param name="InStockOnly">Only parts and adapters of which at least one is in stock.</param>
/// <param name="Most">How many options are listed, 1 to 200; 20 if nothing is said.</param>
/// <param name="Name">What the spec is called in messages.</param>
internal sealed record OptionsRequest(
    string Spec,
    string[] Kinds,
    bool InStockOnly = false,
    int? Most = null,
    string? Name = null
);

/// <summary>How far a search is.</summary>
/// <param name="At">"searching".</param>
/// <param name="Seen">Combinations judged or ruled out.</param>
/// <param name="All">Combinations there are.</param>
/// <param name="Solved">Mechanisms solved.</param>
internal sealed record SearchProgress(string At, long Seen, long All, int Solved);

/// <summary>The last line of a search.</summary>
/// <param name="At">"done".</param>
/// <param name="Revision">The revision of the library that was searched.</param>
/// <param name="Combinations">Combinations there were.</param>
/// <param name="LeftByRules">How many the rules on paper leave.</param>
/// <param name="Solved">Mechanisms solved to know the options listed.</param>
/// <param name="Options">The options, the best first.</param>
/// <param name="Blocking">Where nothing is left: the rules that ruled out most.</param>
internal sealed record SearchDone(
    string At,
    long Revision,
    long Combinations,
    long LeftByRules,
    int Solved,
    ImmutableArray<OptionAnswer> Options,
    ImmutableArray<BlockingAnswer> Blocking
);

/// <summary>Parts that would work together.</summary>
/// <param name="Parts">For each kind that may be replaced the id of the part.</param>
/// <param name="Answer">The worst answer of any rule about them: "yes", "yesWith", "cannotSay" or "no".</param>
/// <param name="Reserve">The least reserve, 1 is comfortable; null: nothing is measured.</param>
/// <param name="Changes">How many parts differ from those there are now.</param>
/// <param name="InStock">Whether each that differs is in stock, and each adapter that is needed; null: nobody counts one of them.</param>
/// <param name="Why">The rules that make the answer what it is, the worst first; empty for all but the first 20 options.</param>
internal sealed record OptionAnswer(
    ImmutableSortedDictionary<string, string> Parts,
    string Answer,
    double? Reserve,
    int Changes,
    bool? InStock,
    ImmutableArray<RuleSaid> Why
);

/// <summary>What a rule says.</summary>
/// <param name="Rule">Its id.</param>
/// <param name="Title">What is asked.</param>
/// <param name="Answer">"yes", "yesWith", "cannotSay" or "no".</param>
/// <param name="Sentence">Why, and by how much.</param>
/// <param name="WhatToDo">The adapter, the setting, what to measure; empty when nothing.</param>
/// <param name="Reserve">How much is left, 1 is comfortable; null: nothing is measured.</param>
/// <param name="RestsOnAssumed">Whether figures are in it that nobody measured or looked up.</param>
internal sealed record RuleSaid(
    string Rule,
    string Title,
    string Answer,
    string Sentence,
    string WhatToDo,
    double? Reserve,
    bool RestsOnAssumed
)
{
    internal static RuleSaid Of(RuleAnswer answer) =>
        new(
            answer.RuleId,
            answer.Title,
            NameOf(answer.Answer),
            answer.Sentence,
            answer.WhatToDo,
            answer.Reserve,
            answer.RestsOnAssumed
        );

    internal static string NameOf(Compatibility answer) =>
        answer switch
        {
            Compatibility.Yes => "yes",
            Compatibility.YesWith => "yesWith",
            Compatibility.CannotSay => "cannotSay",
            _ => "no",
        };
}

/// <summary>A rule that ruled parts out.</summary>
/// <param name="Title">What it asks.</param>
/// <param name="Count">How many parts or pairs.</param>
internal sealed record BlockingAnswer(string Title, long Count);
