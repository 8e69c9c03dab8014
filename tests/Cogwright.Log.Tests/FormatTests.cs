namespace Cogwright.Log.Tests;

/// <summary>The bytes in testdata/formats/log-v1, which were written and hashed apart from the product (see the README there).</summary>
public sealed class FormatTests
{
    [Theory]
    [InlineData("entry-full")]
    [InlineData("entry-minimal")]
    public void Entry_OfVersion1_IsReadAndWrittenByteForByte(string name)
    {
        var bytes = Bytes(name);
        var fields = name == "entry-full" ? Example.Fields : Example.Minimal;

        var read = Entry.Read(bytes);
        Assert.True(read.IsGood, read.Fault?.Text);
        Assert.Equal(Hash(name), read.Value.Hash.ToString());
        Assert.Equal(bytes, read.Value.Encoded.ToArray());

        var made = Entry.Make(fields).Value;
        Assert.NotNull(made);
        Assert.Equal(Convert.ToHexStringLower(bytes), Convert.ToHexStringLower(made.Encoded.Span));
        Assert.Equal(Hash(name), made.Hash.ToString());
        Assert.False(made.IsFromLaterVersion);
    }

    [Fact]
    public void Statement_OfVersion1_IsReadAndHashedAsApart()
    {
        var read = HeadStatement.Read(Bytes("statement"));
        Assert.True(read.IsGood, read.Fault?.Text);
        var statement = read.Value;

        Assert.Equal(Hash("statement"), statement.Hash.ToString());
        Assert.Equal(
            (Bench.Job, 2L, 3L, "shop:1"),
            (statement.Log, statement.Serial, statement.Count, statement.Key)
        );
        var tip = Assert.Single(statement.Tips);
        Assert.Equal(
            (Bench.DeviceOf(7), 3L, Example.Fields.Id, Hash("entry-full")),
            (tip.Device, tip.Sequence, tip.Id, tip.Hash.ToString())
        );
        Assert.Equal(Digest.Of("statement 1"u8), statement.Previous);
    }

    private static byte[] Bytes(string name) => Convert.FromHexString(Text(name + ".hex"));

    private static string Hash(string name) => Text(name + ".sha256");

    private static string Text(string file) =>
        File.ReadAllText(Repository.PathOf("testdata/formats/log-v1/" + file)).Trim();
}
