using System.Text;
using CsCheck;

namespace Cogwright.Log.Tests;

public sealed class EntryEncodingTests
{
    [Fact]
    public void Entry_WrittenReadWritten_IsTheSameBytes() =>
        Draws.Fields.Sample(
            fields =>
            {
                var made = Made(fields);
                var read = Read(made.Encoded.Span);

                Assert.True(read.Encoded.Span.SequenceEqual(made.Encoded.Span));
                Assert.Equal(made.Hash, read.Hash);
                Assert.True(Made(read.Fields).Encoded.Span.SequenceEqual(made.Encoded.Span));
                Assert.Equal(Said(fields), Said(read.Fields));
            },
            seed: "0000KOIXe7j1",
            iter: 3_000
        );

    [Fact]
    public void Entry_HeadsInAnotherOrderAndDoubled_IsTheSameEntry() =>
        Draws.Fields.Sample(
            fields =>
                Made(fields).Hash
                == Made(fields with { Heads = [.. fields.Heads.Reverse(), .. fields.Heads] }).Hash,
            seed: "0000KOIXe7j1",
            iter: 500
        );

    [Fact]
    public void Entry_OneFieldChanged_HasAnotherHash()
    {
        var fields = Example.Fields;
        EntryFields[] changed =
        [
            fields with
            {
                Id = new EntryId(Bench.IdOf(99)),
            },
            fields with
            {
                Log = new LogId(Bench.IdOf(99)),
            },
            fields with
            {
                Device = Bench.DeviceOf(99),
            },
            fields with
            {
                Sequence = 4,
            },
            fields with
            {
                WallClockTicks = 0,
            },
            fields with
            {
                Author = "account:18",
            },
            fields with
            {
                Kind = "reading.taken2",
            },
            fields with
            {
                KindVersion = 3,
            },
            fields with
            {
                Body = "{}"u8.ToArray(),
            },
            fields with
            {
                Heads = [],
            },
            fields with
            {
                Previous = Digest.Of("x"u8),
            },
            fields with
            {
                Corrects = null,
            },
            fields with
            {
                Personal = [],
            },
            fields with
            {
                Extensions = [new EntryExtension(200, ReadOnlyMemory<byte>.Empty)],
            },
        ];

        var hashes = changed.Append(fields).Select(each => Made(each).Hash).ToList();
        Assert.Equal(hashes.Count, hashes.Distinct().Count());
    }

    [Fact]
    public void Entry_OfLaterVersionWithUnknownFields_IsKeptByteForByte()
    {
        var bytes = Made(
            Example.Fields with
            {
                Kind = "not.invented.yet",
                Extensions =
                [
                    new EntryExtension(14, new byte[] { 1, 2 }),
                    new EntryExtension(255, default),
                ],
            }
        )
            .Encoded.ToArray();
        bytes[3] = 2;

        var read = Read(bytes);
        Assert.True(read.IsFromLaterVersion);
        Assert.Equal("not.invented.yet", read.Kind);
        Assert.Equal(2, read.Fields.Extensions.Length);
        Assert.Equal(bytes, read.Encoded.ToArray());
        Assert.Equal(Digest.Of(bytes), read.Hash);
        Assert.True(read.Encoded.Span.SequenceEqual(Read(read.Encoded.Span).Encoded.Span));
    }

    [Fact]
    public void Read_BytesChangedByTheirOwner_StaysWhatItWas()
    {
        var body = "{\"gapMm\":6.1}"u8.ToArray();
        var made = Made(Example.Fields with { Body = body });
        body[1] = (byte)'X';
        var handedIn = made.Encoded.ToArray();
        var read = Read(handedIn);
        handedIn[^1] ^= 1;

        Assert.Equal("{\"gapMm\":6.1}", Encoding.UTF8.GetString(made.Body.Span));
        Assert.Equal(made.Hash, Digest.Of(read.Encoded.Span));
    }

    [Fact]
    public void Read_BytesCutAnywhere_IsRefusedUnlessBetweenOptionalFields()
    {
        var bytes = Made(Example.Fields).Encoded;
        var good = Enumerable
            .Range(0, bytes.Length)
            .Where(length => Entry.Read(bytes.Span[..length]).IsGood);

        // Behind the link to the entry before, which number 3 must have, only these can be left out.
        var withoutLast = Example.Fields with
        {
            Extensions = [],
        };
        var withoutPersonal = withoutLast with { Personal = [] };
        var withoutCorrects = withoutPersonal with { Corrects = null };
        Assert.Equal(
            new[] { withoutCorrects, withoutPersonal, withoutLast }.Select(fields =>
                Made(fields).Encoded.Length
            ),
            good
        );
    }

    [Fact]
    public void Read_RandomBytesAndMutatedEntries_AnswersAndNeverThrows()
    {
        var iterations =
            Environment.GetEnvironmentVariable("COGWRIGHT_LONG") == "1" ? 1_000_000 : 20_000;
        Gen.Select(Draws.Fields, Gen.Int[0, 3], Gen.Int, Gen.Byte.Array[1, 12])
            .Sample(
                (fields, way, at, noise) =>
                {
                    var bytes = Mutated(Made(fields).Encoded.ToArray(), way, at, noise);
                    var outcome = Entry.Read(bytes);
                    // What is read says in its fields all that the bytes say: they are written anew from these alone.
                    Assert.True(
                        outcome.IsGood
                            ? EntryEncoding
                                .Write(outcome.Value.Fields, bytes[3])
                                .AsSpan()
                                .SequenceEqual(bytes)
                            : outcome.Fault.Text.Length > 20
                    );
                    _ = HeadStatement.Read(bytes).IsGood;
                },
                seed: "0000KOIXe7j1",
                iter: iterations
            );
    }

    [Fact]
    public void Read_EmptyFieldWrittenOut_IsRefusedAsNotCanonical()
    {
        // An empty body (tag 9) is left out; written out it would give the same entry a second hash.
        var made = Made(Example.Minimal).Encoded.ToArray();
        byte[] bytes = [.. made, EntryTag.Body, 0, 0, 0, 0];

        Assert.Equal(LogFaultKind.NotCanonical, Entry.Read(bytes).Fault?.Kind);
    }

    [Fact]
    public void Read_HeadsNotAscending_IsRefusedAsNotCanonical()
    {
        var heads = new[] { Bench.IdOf(1), Bench.IdOf(2) };
        var made = Made(Example.Minimal with { Heads = [.. heads.Select(id => new EntryId(id))] });
        var bytes = made.Encoded.ToArray();
        heads[1].TryWriteBytes(bytes.AsSpan(bytes.Length - 32), bigEndian: true, out _);
        heads[0].TryWriteBytes(bytes.AsSpan(bytes.Length - 16), bigEndian: true, out _);

        Assert.Equal(LogFaultKind.NotCanonical, Entry.Read(bytes).Fault?.Kind);
    }

    private static byte[] Mutated(byte[] bytes, int way, int at, byte[] noise)
    {
        var place = (int)((uint)at % (uint)bytes.Length);
        switch (way)
        {
            case 0:
                return noise;
            case 1:
                return bytes[..place];
            case 2:
                noise
                    .AsSpan(0, Math.Min(noise.Length, bytes.Length - place))
                    .CopyTo(bytes.AsSpan(place));
                return bytes;
            default:
                return [.. bytes[..place], .. noise, .. bytes[place..]];
        }
    }

    private static string Said(EntryFields fields) =>
        string.Join(
            '|',
            fields.Id,
            fields.Log,
            fields.Device,
            fields.Sequence,
            fields.WallClockTicks,
            fields.Author,
            fields.Kind,
            fields.KindVersion,
            Convert.ToHexString(fields.Body.Span),
            string.Join(',', fields.Heads.Distinct().Order()),
            fields.Previous,
            fields.Corrects,
            string.Join(',', fields.Personal),
            string.Join(
                ',',
                fields.Extensions.Select(e => $"{e.Tag}{Convert.ToHexString(e.Value.Span)}")
            )
        );

    private static Entry Made(EntryFields fields)
    {
        var outcome = Entry.Make(fields);
        Assert.True(outcome.IsGood, outcome.Fault?.Text);
        return outcome.Value;
    }

    private static Entry Read(ReadOnlySpan<byte> bytes)
    {
        var outcome = Entry.Read(bytes);
        Assert.True(outcome.IsGood, outcome.Fault?.Text);
        return outcome.Value;
    }
}
