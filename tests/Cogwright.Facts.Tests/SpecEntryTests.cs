using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Cogwright.Log;
using CsCheck;

namespace Cogwright.Facts.Tests;

public sealed class SpecEntryTests
{
    private static readonly LogId Bike = new(new Guid("018f0000-0000-7000-8000-000000000001"));

    internal static Entry EntryOf(string kind, int version, byte[] body)
    {
        var log = new EntryLog(Bike);
        return log.Prepare(
            new DeviceId(new Guid("018f0000-0000-7000-8000-0000000000d1")),
            EntryStamp.Next(null, 638_000_000_000_000_000, RandomNumberGenerator.GetBytes(10)),
            new EntryDraft("device:1", kind, version, body)
        ).Value!;
    }

    [Fact]
    public void Body_OfAChange_IsTheCanonicalJsonOfTheManual()
    {
        var change = new SpecChange(
            "Größe “gesetzt”",
            ImmutableSortedDictionary<string, string?>
                .Empty.Add("rings[0].teeth", null)
                .Add("name", "Hesby <1>")
                .Add("frame.chainstay", "410,5")
        )
        {
            Undoes = "a",
        };

        Assert.Equal(
            """{"fields":{"frame.chainstay":"410,5","name":"Hesby <1>","rings[0].teeth":null},"undoes":"a","what":"Größe “gesetzt”"}""",
            Encoding.UTF8.GetString(SpecEntry.Body(change))
        );
    }

    [Fact]
    public void Change_ThroughAnEntryAndBack_IsTheSame() =>
        Gen.Select(
                Gen.Dictionary(Gen.String[1, 20], Gen.String[0, 20])[0, 6],
                Gen.String,
                Gen.Bool,
                Gen.Bool
            )
            .Where(
                (fields, what, _, _) =>
                    fields.All(f => IsWhole(f.Key) && IsWhole(f.Value)) && IsWhole(what)
            )
            .Sample(
                (fields, what, isUndo, hasNull) =>
                {
                    var change = new SpecChange(
                        what,
                        fields.ToImmutableSortedDictionary(
                            field => field.Key,
                            field => hasNull ? null : field.Value,
                            StringComparer.Ordinal
                        )
                    )
                    {
                        Undoes = isUndo ? "018f" : null,
                        Redoes = isUndo ? null : "0190",
                    };

                    var read = SpecEntry.Read(
                        EntryOf(SpecEntry.Kind, SpecEntry.Version, SpecEntry.Body(change))
                    )!;

                    Assert.Equal(change.What, read.What);
                    Assert.Equal(change.Undoes, read.Undoes);
                    Assert.Equal(change.Redoes, read.Redoes);
                    Assert.Equal(change.Fields.AsEnumerable(), read.Fields);
                    Assert.Equal(SpecEntry.Body(change), SpecEntry.Body(read));
                }
            );

    [Fact]
    public void Body_WithHalfASurrogatePair_CanBeRead()
    {
        var change = new SpecChange(
            "x",
            ImmutableSortedDictionary<string, string?>.Empty.Add("name", "a\ud83d")
        );

        var read = SpecEntry.Read(EntryOf(SpecEntry.Kind, 1, SpecEntry.Body(change)))!;

        Assert.Equal("a\ufffd", read.Fields["name"]);
    }

    [Theory]
    [InlineData("spec.set", 2, """{"fields":{},"what":""}""")]
    [InlineData("torque.set", 1, """{"fields":{},"what":""}""")]
    [InlineData("spec.set", 1, """{"fields":{"a":1},"what":""}""")]
    [InlineData("spec.set", 1, """{"what":""}""")]
    [InlineData("spec.set", 1, "[]")]
    [InlineData("spec.set", 1, "no json")]
    public void Entry_NotUnderstood_SetsNothing_AndLeavesATrace(
        string kind,
        int version,
        string body
    )
    {
        var entry = EntryOf(kind, version, Encoding.UTF8.GetBytes(body));
        var log = new EntryLog(Bike);
        log.Add(entry);

        var state = log.Fold(new BikeFold());

        Assert.Null(SpecEntry.Read(entry));
        Assert.Empty(new BikeSubjects().SubjectsOf(entry));
        Assert.Equal([entry.Id], state.NotUnderstood);
        Assert.Empty(state.History.Changes);
    }

    private static bool IsWhole(string text) =>
        text == Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text));
}
