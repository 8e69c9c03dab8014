using CsCheck;

namespace Cogwright.Log.Tests;

public sealed class EntryIdTests
{
    // RFC 9562, appendix A.6: 2022-02-22 14:22:22.00 −05:00, rand_a CC3, rand_b 18C4DC0C0C07398F.
    [Fact]
    public void Next_Rfc9562AppendixA6_IsItsExample()
    {
        var random = Convert.FromHexString("0CC318C4DC0C0C07398F");
        var id = EntryId.Next(null, 0x017F22E279B0, random);

        Assert.Equal("017f22e2-79b0-7cc3-98c4-dc0c0c07398f", id.ToString());
        var moment = new DateTimeOffset(2022, 2, 22, 14, 22, 22, TimeSpan.FromHours(-5));
        Assert.Equal(id, EntryStamp.Next(null, moment.UtcTicks, random).Id);
    }

    [Fact]
    public void Next_WhateverTheClockDoes_AscendsAndKeepsVersionAndVariant() =>
        // Before 1970 as well; the last millisecond of all is a case of its own.
        Gen.Select(Gen.Long[-(1L << 47), (1L << 48) - 1000], Gen.Byte.Array[EntryId.RandomBytes])
            .Array[1, 40]
            .Sample(
                stamps =>
                {
                    EntryId? last = null;
                    foreach (var (milliseconds, random) in stamps)
                    {
                        var id = EntryId.Next(last, milliseconds, random);
                        var bytes = id.Value.ToByteArray(bigEndian: true);
                        Assert.Equal(0x70, bytes[6] & 0xF0);
                        Assert.Equal(0x80, bytes[8] & 0xC0);
                        Assert.True(last is null || id > last);
                        last = id;
                    }
                },
                seed: "0000KOIXe7j1",
                iter: 2000
            );

    [Fact]
    public void Next_SameMillisecondAndChance_StillDiffers()
    {
        var random = new byte[EntryId.RandomBytes];
        var first = EntryId.Next(null, 1000, random);
        var second = EntryId.Next(first, 1000, random);
        var afterClockWentBack = EntryId.Next(second, 10, random);

        Assert.True(first < second);
        Assert.True(second < afterClockWentBack);
    }

    [Fact]
    public void Next_ClockBeyondTheLastMillisecond_CountsAsThatAndNeverOverflows()
    {
        var most = Enumerable.Repeat((byte)0xFF, EntryId.RandomBytes).ToArray();
        var least = new byte[EntryId.RandomBytes];
        var greatest = EntryId.Next(null, long.MaxValue, most);
        Assert.Equal("ffffffff-ffff-7fff-bfff-ffffffffffff", greatest.ToString());

        // Nothing greater is left: unique counts for more than ascending.
        var after = EntryId.Next(greatest, long.MaxValue, least);
        Assert.Equal("ffffffff-ffff-7000-8000-000000000000", after.ToString());
        Assert.True(EntryId.Next(after, 0, least) > after);
    }

    [Theory]
    [InlineData(long.MinValue)]
    [InlineData(0)]
    [InlineData(long.MaxValue)]
    public void Stamp_ClockBeyondAllSense_IsKeptForDisplay(long ticks) =>
        Assert.Equal(
            ticks,
            EntryStamp.Next(null, ticks, new byte[EntryId.RandomBytes]).WallClockTicks
        );

    [Fact]
    public void Next_TooLittleChance_IsRefusedInWords()
    {
        var error = Assert.Throws<ArgumentException>(() => EntryId.Next(null, 0, new byte[9]));
        Assert.Contains("10 bytes of chance", error.Message, StringComparison.Ordinal);
    }

    // The order of Guid is that of its bytes from the first, as PostgreSQL's uuid and a blob in SQLite have it.
    [Fact]
    public void Order_OfIds_IsThatOfTheirBytes() =>
        Gen
            .Byte.Array[16]
            .Select(Gen.Byte.Array[16], Gen.Int[0, 15])
            .Sample(
                (a, b, same) =>
                {
                    a.AsSpan(0, same).CopyTo(b);
                    var byBytes = a.AsSpan().SequenceCompareTo(b);
                    var ids = (new EntryId(new Guid(a, true)), new EntryId(new Guid(b, true)));
                    Assert.Equal(Math.Sign(byBytes), Math.Sign(ids.Item1.CompareTo(ids.Item2)));
                },
                seed: "0000KOIXe7j1"
            );
}
