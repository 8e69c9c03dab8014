using System.Collections.Immutable;

namespace Cogwright.Log.Tests;

/// <summary>What cannot be an entry is refused, in words that say what, where and what to do.</summary>
public sealed class EntryRulesTests
{
    public static TheoryData<string> Cases => [.. Broken.Keys];

    private static readonly Dictionary<string, (EntryFields Fields, LogFaultKind Kind)> Broken =
        new()
        {
            ["sequence 0"] = (Example.Minimal with { Sequence = 0 }, LogFaultKind.Impossible),
            ["sequence too large"] = (
                Example.Fields with
                {
                    Sequence = EntryLimits.Sequence + 1,
                },
                LogFaultKind.Impossible
            ),
            ["first with previous"] = (
                Example.Fields with
                {
                    Sequence = 1,
                },
                LogFaultKind.Impossible
            ),
            ["later without previous"] = (
                Example.Fields with
                {
                    Previous = null,
                },
                LogFaultKind.Impossible
            ),
            ["no author"] = (Example.Fields with { Author = "" }, LogFaultKind.Missing),
            ["no kind"] = (Example.Fields with { Kind = "" }, LogFaultKind.Missing),
            ["half a character"] = (
                Example.Fields with
                {
                    Author = "a\uD83D",
                },
                LogFaultKind.Impossible
            ),
            ["long author"] = (
                Example.Fields with
                {
                    Author = new string('ż', 65),
                },
                LogFaultKind.TooLarge
            ),
            ["long kind"] = (
                Example.Fields with
                {
                    Kind = new string('k', 65),
                },
                LogFaultKind.TooLarge
            ),
            ["kind version 0"] = (Example.Fields with { KindVersion = 0 }, LogFaultKind.Impossible),
            ["large body"] = (
                Example.Fields with
                {
                    Body = new byte[EntryLimits.BodyBytes + 1],
                },
                LogFaultKind.TooLarge
            ),
            ["many heads"] = (
                Example.Fields with
                {
                    Heads = Ids(EntryLimits.Heads + 1),
                },
                LogFaultKind.TooLarge
            ),
            ["sees itself"] = (
                Example.Fields with
                {
                    Heads = [Example.Fields.Id],
                },
                LogFaultKind.Impossible
            ),
            ["corrects itself"] = (
                Example.Fields with
                {
                    Corrects = Example.Fields.Id,
                },
                LogFaultKind.Impossible
            ),
            ["a digest twice"] = (
                Example.Fields with
                {
                    Personal = [.. Example.Fields.Personal, .. Example.Fields.Personal],
                },
                LogFaultKind.Impossible
            ),
            ["extension with a known tag"] = (
                Example.Fields with
                {
                    Extensions = [new EntryExtension(EntryTag.Personal, default)],
                },
                LogFaultKind.Impossible
            ),
            ["large extension"] = (
                Example.Fields with
                {
                    Extensions = [new EntryExtension(99, new byte[EntryLimits.EntryBytes])],
                },
                LogFaultKind.TooLarge
            ),
        };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Make_WhatCannotBe_IsRefusedInWords(string name)
    {
        var (fields, kind) = Broken[name];
        var outcome = Entry.Make(fields);

        Assert.False(outcome.IsGood);
        Assert.Equal(kind, outcome.Fault.Kind);
        Assert.Contains(fields.Id.ToString(), outcome.Fault.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Make_EverythingAtItsLimit_IsAnEntryThatCanBeRead()
    {
        var made = Entry.Make(
            Example.Fields with
            {
                Body = new byte[EntryLimits.BodyBytes],
                Heads = Ids(EntryLimits.Heads),
                Author = new string('a', EntryLimits.AuthorBytes),
                Kind = new string('k', EntryLimits.KindBytes),
                Personal =
                [
                    .. Enumerable
                        .Range(0, EntryLimits.Personal)
                        .Select(i => Digest.Of(BitConverter.GetBytes(i))),
                ],
                Extensions = [],
            }
        );

        Assert.True(made.IsGood, made.Fault?.Text);
        Assert.True(Entry.Read(made.Value.Encoded.Span).IsGood);
        // Room for what later versions add, as EntryLimits says.
        Assert.True(EntryLimits.EntryBytes - made.Value.Encoded.Length > 48_000);
    }

    [Fact]
    public void Read_LargerThanAnyEntry_IsRefusedBeforeItIsRead() =>
        Assert.Equal(
            LogFaultKind.TooLarge,
            Entry.Read(new byte[EntryLimits.EntryBytes + 1]).Fault?.Kind
        );

    private static ImmutableArray<EntryId> Ids(int count) =>
        [.. Enumerable.Range(100, count).Select(i => new EntryId(Bench.IdOf(i)))];
}
