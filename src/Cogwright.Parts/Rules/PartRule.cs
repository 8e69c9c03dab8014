using System.Collections.Immutable;
using System.Globalization;

namespace Cogwright.Parts.Rules;

/// <summary>
/// A rule that compares what is said of parts. It is data: an id, the figures or interfaces compared, and how. Its title,
/// sentences and source stand under its id in the resources.
/// </summary>
internal abstract class PartRule(
    string id,
    ImmutableArray<PartKind> kinds,
    ImmutableArray<PartField> fields
)
{
    /// <summary>Its id, and the key of its words.</summary>
    internal string Id { get; } = id;

    /// <summary>The kinds it looks at; it is asked once all that <see cref="Asks"/> needs are chosen.</summary>
    internal ImmutableArray<PartKind> Kinds { get; } = kinds;

    /// <summary>Whether the parts that it compares are chosen.</summary>
    internal abstract bool Asks(ReadOnlySpan<Part?> parts);

    /// <summary>The answer for parts of which it asks.</summary>
    internal abstract Judgement Judge(ReadOnlySpan<Part?> parts, ImmutableArray<Part> adapters);

    /// <summary>The values that stand in the sentences.</summary>
    protected abstract ImmutableArray<string> Words(
        ReadOnlySpan<Part?> parts,
        in Judgement judgement
    );

    /// <summary>What is not known: the fields, each with its part.</summary>
    protected abstract ImmutableArray<(PartField Field, Part Part)> Missing(
        ReadOnlySpan<Part?> parts
    );

    /// <summary>Whether a figure that it compares stands in for one that nobody knows.</summary>
    protected virtual bool RestsOnAssumed(ReadOnlySpan<Part?> parts) => false;

    internal RuleAnswer Answer(ReadOnlySpan<Part?> parts, ImmutableArray<Part> adapters)
    {
        var judgement = Judge(parts, adapters);
        var words = Words(parts, judgement);
        object?[] places = [.. words];
        var (key, what) = judgement.Answer switch
        {
            Compatibility.Yes => ("yes", ""),
            Compatibility.YesWith => ("with", "with.do"),
            Compatibility.No => ("no", "no.do"),
            _ => ("", ""),
        };
        var sentence =
            judgement.Answer == Compatibility.CannotSay
                ? NotKnown(parts)
                : Texts.Get($"rule.{Id}.{key}{judgement.Case}", places);
        return new()
        {
            RuleId = Id,
            Title = Texts.Get($"rule.{Id}"),
            Answer = judgement.Answer,
            Sentence = sentence,
            WhatToDo =
                judgement.Answer == Compatibility.CannotSay ? Texts.Get("rule.lookUp")
                : judgement.Adapter is { } adapter ? Texts.Get("rule.adapter", adapter.Name)
                : what.Length > 0 ? Texts.Find($"rule.{Id}.{what}{judgement.Case}", places)
                : "",
            Source = Texts.Get($"rule.{Id}.source"),
            Reserve = double.IsNaN(judgement.Reserve) ? null : judgement.Reserve,
            Kinds = Kinds,
            RestsOnAssumed = RestsOnAssumed(parts),
            Ground = Ground(parts, judgement),
        };
    }

    private string NotKnown(ReadOnlySpan<Part?> parts) =>
        string.Join(
            ' ',
            Missing(parts).Select(m => Texts.Get("rule.unknown", m.Field.Title, m.Part.Name))
        );

    /// <summary>The parts and what is compared of them: no words, so that it is the same in every language.</summary>
    private string Ground(ReadOnlySpan<Part?> parts, in Judgement judgement)
    {
        List<string> ground = [judgement.Answer.ToString(), judgement.Adapter?.Id ?? ""];
        foreach (var kind in Kinds)
        {
            var part = parts[(int)kind];
            ground.Add(part?.Id ?? "");
            foreach (var field in fields)
            {
                ground.Add(part?.Values.GetValueOrDefault(field)?.ToGround() ?? "");
            }
        }
        return GroundDigest.Of(ground);
    }

    /// <summary>A number as it stands in a sentence: as short as it is exact.</summary>
    protected static string Text(double number, int decimals) =>
        double.IsNaN(number)
            ? "–"
            : Math.Round(number, decimals).ToString("0.###", CultureInfo.InvariantCulture);
}
