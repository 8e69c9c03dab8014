using System.Globalization;
using System.Text;

namespace Cogwright.Files.Tests;

/// <summary>Files that are no specs at all, by mistake or by intent.</summary>
public sealed class HostileFileTests
{
    private static FileProblem OnlyError(SpecReading reading)
    {
        Assert.Null(reading.Spec);
        return Assert.Single(reading.Problems);
    }

    private static SpecReading ReadBytes(byte[] bytes)
    {
        using var stream = new MemoryStream(bytes);
        return SpecReader.Read(stream, "bike.yaml");
    }

    [Fact]
    public void FiftyMegabytes_SeekableStream_RefusedWithoutReading()
    {
        using var stream = new CountingStream(50_000_000, canSeek: true);

        var problem = OnlyError(SpecReader.Read(stream, "bike.yaml"));

        Assert.Contains("50 MB", problem.Message, StringComparison.Ordinal);
        Assert.Equal(0, stream.BytesGiven);
    }

    [Fact]
    public void FiftyMegabytes_PlainStream_RefusedAtTheLimit()
    {
        using var stream = new CountingStream(50_000_000, canSeek: false);

        var problem = OnlyError(SpecReader.Read(stream, "bike.yaml"));

        Assert.Contains("1 MB", problem.Message, StringComparison.Ordinal);
        Assert.InRange(stream.BytesGiven, 1, SpecReader.MostBytes + 20_000);
    }

    [Fact]
    public void LongText_Read_Refused() =>
        Assert.Contains(
            "1 MB",
            OnlyError(SpecReader.Read(new string(' ', 2_000_000), "bike.yaml")).Message,
            StringComparison.Ordinal
        );

    [Fact]
    public void InvalidUtf8_Read_TellsLineAndColumn()
    {
        var problem = OnlyError(ReadBytes([.. "name: a\nframe: "u8, 0xC3, 0x28]));

        Assert.Equal((2, 8), (problem.Line, problem.Column));
        Assert.Contains("UTF-8", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Utf16_Read_AsksForUtf8() =>
        Assert.Contains(
            "UTF-16",
            OnlyError(
                ReadBytes([.. Encoding.Unicode.Preamble, .. Encoding.Unicode.GetBytes("name: a")])
            ).Message,
            StringComparison.Ordinal
        );

    [Fact]
    public void NulByte_Read_TellsPlace()
    {
        var problem = OnlyError(ReadBytes("name: a\nfr\0ame: b"u8.ToArray()));

        Assert.Equal((2, 3), (problem.Line, problem.Column));
    }

    [Fact]
    public void ByteOrderMark_Read_IsLeftOut()
    {
        var text = Repository.Text("demo/specs/model-example.yaml");

        Assert.NotNull(
            ReadBytes([.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(text)]).Spec
        );
    }

    [Theory]
    [InlineData("")]
    [InlineData("   \n\n")]
    [InlineData("# only a comment\n")]
    [InlineData("---\n")]
    [InlineData("~")]
    public void NothingInIt_Read_SaysThatItIsEmpty(string text) =>
        Assert.Contains(
            "empty",
            OnlyError(SpecReader.Read(text, "bike.yaml")).Message,
            StringComparison.Ordinal
        );

    [Fact]
    public void TenThousandRings_Read_RefusedAtTheList()
    {
        var text = new StringBuilder(
            "name: a\nframe: {chainstay: 410, bbDrop: 70}\ncogs: {teeth: 16}\nrings:\n"
        );
        for (var i = 0; i < 10_000; i++)
        {
            text.Append("  - 40\n");
        }

        var problem = OnlyError(SpecReader.Read(text.ToString(), "bike.yaml"));

        Assert.Equal((4, 1, "rings"), (problem.Line, problem.Column, problem.Field));
        Assert.Contains("10000", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ManyValues_Read_RefusedWhereTheLimitIs()
    {
        var text = "a: [" + string.Join(", ", Enumerable.Repeat("1", 100_000)) + "]";

        Assert.Contains(
            "20000",
            OnlyError(SpecReader.Read(text, "bike.yaml")).Message,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData('[')]
    [InlineData('{')]
    public void DeepNesting_Read_Refused(char bracket)
    {
        var problem = OnlyError(SpecReader.Read("a: " + new string(bracket, 100_000), "bike.yaml"));

        Assert.Equal(1, problem.Line);
        Assert.Contains("20 deep", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void AliasBomb_Read_RefusedAtTheFirstAnchor()
    {
        var text = new StringBuilder("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n");
        for (var i = 1; i < 12; i++)
        {
            var alias = $"*a{i - 1}";
            text.Append(
                CultureInfo.InvariantCulture,
                $"a{i}: &a{i} [{string.Join(", ", Enumerable.Repeat(alias, 10))}]\n"
            );
        }

        var problem = OnlyError(SpecReader.Read(text.ToString(), "bike.yaml"));

        Assert.Equal((1, 5), (problem.Line, problem.Column));
    }

    [Fact]
    public void ManyErrors_Read_FiftyAreToldAndTheRestCounted()
    {
        var text = string.Concat(Enumerable.Range(0, 200).Select(i => $"odd{i}: 1\n"));

        var reading = SpecReader.Read(text, "bike.yaml");

        Assert.Equal(51, reading.Problems.Length);
        // 200 unknown fields and 4 required ones that are missing, less the 50 that are told.
        Assert.Contains("154", reading.Problems[^1].Message, StringComparison.Ordinal);
        Assert.Equal(reading.Problems.OrderBy(p => p.Line).ThenBy(p => p.Column), reading.Problems);
    }

    /// <summary>A stream of blanks that counts what was taken from it.</summary>
    private sealed class CountingStream(long length, bool canSeek) : Stream
    {
        internal long BytesGiven { get; private set; }

        public override bool CanRead => true;
        public override bool CanSeek => canSeek;
        public override bool CanWrite => false;
        public override long Length => length;
        public override long Position
        {
            get => BytesGiven;
            set => throw new NotSupportedException();
        }

        public override int Read(byte[] buffer, int offset, int count)
        {
            var given = (int)Math.Min(count, length - BytesGiven);
            buffer.AsSpan(offset, given).Fill((byte)' ');
            BytesGiven += given;
            return given;
        }

        public override void Flush() { }

        public override long Seek(long offset, SeekOrigin origin) =>
            throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) =>
            throw new NotSupportedException();
    }
}
