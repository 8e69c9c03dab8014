using System.Text;
using Cogwright.Log;
using Cogwright.Parts;
using CsCheck;

namespace Cogwright.Facts.Tests;

public sealed class LabelEntryTests
{
    private static readonly LogId Bike = new(Guid.CreateVersion7());
    private static readonly Digest Photo = Digest.Of("a photo"u8);

    internal static Entry EntryOf(EntryDraft draft) =>
        new EntryLog(Bike)
            .Prepare(
                new DeviceId(new Guid("018f0000-0000-7000-8000-0000000000d1")),
                EntryStamp.Next(null, 638_000_000_000_000_000, new byte[EntryId.RandomBytes]),
                draft with
                {
                    Author = "device:1",
                }
            )
            .Value!;

    [Fact]
    public void Body_OfALabel_IsTheCanonicalJsonOfTheManual()
    {
        var label = new PartLabel(PartKind.RearDerailleur, "hesby-rd", "Ä 12/\"3", "inner face")
        {
            Photo = new(Photo, "image/jpeg"),
        };

        Assert.Equal(
            """{"part":"rearDerailleur","partId":"hesby-rd","photo":"image/jpeg","serial":"Ä 12/\"3","words":"inner face"}""",
            Encoding.UTF8.GetString(LabelEntry.Body(label))
        );
        Assert.Equal(
            """{"part":"chain","serial":"7"}""",
            Encoding.UTF8.GetString(LabelEntry.Body(new(PartKind.Chain, null, "7", "")))
        );
        Assert.Equal([Photo], LabelEntry.Draft(label).Personal);
    }

    [Fact]
    public void Removal_OfALabel_CorrectsIt_AndSaysWhy()
    {
        var first = EntryOf(LabelEntry.Draft(new(PartKind.Chain, null, "7", "")));

        var draft = LabelEntry.DraftOfRemoval(first.Id, "read wrong");

        Assert.Equal("""{"reason":"read wrong"}""", Encoding.UTF8.GetString(draft.Body.Span));
        Assert.Equal(first.Id, draft.Corrects);
    }

    [Fact]
    public void Label_ThroughAnEntryAndBack_IsTheSame() =>
        Gen.Select(
                Gen.Int[0, PartKinds.All.Length - 1],
                Gen.String[Gen.Char[' ', '\uD7FF'], 0, 20],
                Gen.String[Gen.Char[' ', '\uD7FF'], 0, 20],
                Gen.Bool
            )
            .Sample(
                (kind, serial, words, hasPhoto) =>
                {
                    var label = new PartLabel(
                        PartKinds.All[kind],
                        words.Length > 3 ? words[..3] : null,
                        serial,
                        words
                    )
                    {
                        Photo = hasPhoto ? new(Photo, "image/png") : null,
                    };
                    var entry = EntryOf(LabelEntry.Draft(label));
                    Assert.Equal(
                        label with
                        {
                            Id = entry.Id,
                            UtcTicks = entry.WallClockTicks,
                        },
                        LabelEntry.Read(Entry.Read(entry.Encoded.Span).Value!)
                    );
                }
            );

    [Theory]
    [InlineData("label.add", 2, """{"part":"chain","serial":"7"}""")]
    [InlineData("label.add", 1, """{"part":"flywheel","serial":"7"}""")]
    [InlineData("label.add", 1, """{"part":"chain","photo":"image/svg+xml"}""")]
    [InlineData("label.add", 1, """{"part":"chain","photo":"image/jpeg"}""")]
    [InlineData("label.add", 1, """{"part":"chain","serial":7}""")]
    [InlineData("label.add", 1, "[]")]
    [InlineData("label.add", 1, "no JSON")]
    [InlineData("label.remove", 1, """{"reason":"takes nothing away"}""")]
    public void Entry_NotUnderstood_AddsNoLabel_AndLeavesATrace(
        string kind,
        int version,
        string body
    )
    {
        var entry = SpecEntryTests.EntryOf(kind, version, Encoding.UTF8.GetBytes(body));
        var log = new EntryLog(entry.Log);
        log.Add(entry);

        var state = log.Fold(new BikeFold());

        Assert.Empty(state.Labels);
        Assert.Equal([entry.Id], state.NotUnderstood);
    }
}
