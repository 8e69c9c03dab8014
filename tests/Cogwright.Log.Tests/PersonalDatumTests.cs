using System.Text;

namespace Cogwright.Log.Tests;

public sealed class PersonalDatumTests
{
    private static readonly byte[] Salt =
    [
        .. Enumerable.Range(0, PersonalDatum.SaltBytes).Select(i => (byte)i),
    ];

    // Computed apart with Python: sha256(b"CWP\x01" + bytes(range(32)) + "Ida Przykład".encode()).
    [Fact]
    public void Digest_OfASaltedName_IsThatComputedApart() =>
        Assert.Equal(
            "782384a2b6a765645e0e8e624d68ef5543c843954cff994a676b2a0db1e16d90",
            new PersonalDatum(Salt, Encoding.UTF8.GetBytes("Ida Przykład")).Digest.ToString()
        );

    [Fact]
    public void Digest_AnotherSalt_IsAnother()
    {
        var other = Salt.ToArray();
        other[31]++;
        Assert.NotEqual(
            new PersonalDatum(Salt, "a"u8).Digest,
            new PersonalDatum(other, "a"u8).Digest
        );
    }

    [Fact]
    public void Entry_WithADatum_HoldsItsDigestAndNothingElseOfIt()
    {
        var datum = new PersonalDatum(Salt, "an invented name"u8);
        var plain = new Bench(1, Bench.Job).Write();
        var entry = Entry.Make(plain.Fields with { Personal = [datum.Digest] }).Value;
        Assert.NotNull(entry);

        // One field more with the digest, at the end: nothing that is hashed has to change when datum and salt are erased.
        byte[] expected =
        [
            .. plain.Encoded.Span,
            EntryTag.Personal,
            0,
            0,
            0,
            Digest.Length,
            .. datum.Digest.ToBytes(),
        ];
        Assert.Equal(expected, entry.Encoded.ToArray());
    }

    [Fact]
    public void Read_FromStore_FitsTheDigestInTheEntryWithItsOwnSaltOnly()
    {
        var datum = new PersonalDatum(Salt, "an invented name"u8);
        var fields = new Bench(1, Bench.Job).Write().Fields;
        var entry = Entry.Make(fields with { Personal = [datum.Digest] }).Value;
        Assert.NotNull(entry);
        var stated = Assert.Single(Entry.Read(entry.Encoded.Span).Value!.Personal);

        Assert.Equal(stated, new PersonalDatum(datum.Salt.Span, datum.Data.Span).Digest);
        // Salt erased: who tries the right name with another salt, or with none, learns nothing.
        Assert.NotEqual(
            stated,
            new PersonalDatum(new byte[PersonalDatum.SaltBytes], datum.Data.Span).Digest
        );
        Assert.NotEqual(stated, Digest.Of(datum.Data.Span));
    }

    [Fact]
    public void Salt_OfAnotherLength_IsRefusedInWords() =>
        Assert.Contains(
            "32 bytes",
            Assert.Throws<ArgumentException>(() => new PersonalDatum(new byte[16], "a"u8)).Message,
            StringComparison.Ordinal
        );
}
