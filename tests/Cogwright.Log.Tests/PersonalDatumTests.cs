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
    public void Erased_DataAndSalt_LeaveTheChainWhole()
    {
        var datum = new PersonalDatum(Salt, "an invented name"u8);
        var bench = new Bench(1, Bench.Job);
        var fields = bench.Write().Fields;
        var entry = Entry.Make(fields with { Personal = [datum.Digest] }).Value;
        Assert.NotNull(entry);
        var log = new EntryLog(Bench.Job);
        log.Add(entry);

        // Nothing of the datum is in what is hashed, so nothing there has to change when it is erased.
        Assert.Equal(-1, entry.Encoded.Span.IndexOf(datum.Data.Span));
        Assert.Equal(-1, entry.Encoded.Span.IndexOf(datum.Salt.Span));
        Assert.Empty(ChainCheck.Of(Bench.Job, log.Ordered.Select(StoredEntry.Of)));
    }

    [Fact]
    public void Salt_OfAnotherLength_IsRefusedInWords() =>
        Assert.Contains(
            "32 bytes",
            Assert.Throws<ArgumentException>(() => new PersonalDatum(new byte[16], "a"u8)).Message,
            StringComparison.Ordinal
        );
}
