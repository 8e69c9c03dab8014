using System.Diagnostics;
using System.Text;
using Cogwright.Setup.Records;
using ZXing;
using ZXing.Common;
using ZXing.QrCode;

namespace Cogwright.Paper.Tests;

/// <summary>The record on paper: everything it says is on the pages, the file in it comes out as it went in.</summary>
public sealed class RecordTests
{
    private const string Code =
        "https://shop.example:8443/bike/0195a1f0-0000-7000-8000-000000000001/record/0195a1f0-0000-7000-8000-000000000002#0123456789abcdef";

    private static RecordContent Content { get; } =
        new()
        {
            BikeName = "Grey tourer",
            Title = "New drivetrain",
            IsClosed = true,
            Standing = "2026-03-13 to 2026-03-14, handed over",
            Done = ["Set up the rear derailleur. So that every gear runs."],
            Know = ["Do not use these gears (ring / cog): 50 / 34.", "New cables settle."],
            Cautions = ["Battery out before you work on an assisted bike."],
            FirstCheck = "On 2026-04-20, or after 100 to 300 km.",
            Intake = ["Found: chain worn 0.75 %"],
            Parts = ["Cassette: K-123 456"],
            Readings =
            [
                new(
                    "Set the gap",
                    "5 to 7, aim 6 mm; teeth to teeth, chain on the largest cog",
                    "6.1 mm, within",
                    "Caliper 3 (calibrated 2026-01-02)",
                    "AB, 2026-03-14 10:00"
                ),
            ],
            Torques =
            [
                new(
                    "Tighten the axle",
                    "9 to 12 N·m",
                    "10 N·m, within",
                    "Click wrench 1",
                    "AB, 2026-03-14 10:10"
                ),
            ],
            Looks =
            [
                .. Enumerable
                    .Range(1, 60)
                    .Select(i => new RecordRow(
                        $"Look at place {i}",
                        "no play, no noise, straight",
                        "as it should be",
                        "",
                        "AB, 2026-03-14 10:20"
                    )),
            ],
            Again = ["Set the gap Done again: knock."],
            Exceptions = ["Straighten the hanger Left as it is: half a millimetre (AB)."],
            Happened = ["2026-03-14 11:00: Knock"],
            Hands = ["2026-03-13 09:00: AB"],
            Amendments = ["2026-03-20 08:00, CD: Serial number misread."],
            Proof = ["This record rests on 12 entries.", "device 1: " + new string('a', 64)],
            Signatures = ["Mechanic, date", "Second look, date", "Customer, date"],
            Clock = "Times are UTC+00:00.",
        };

    [Theory]
    [InlineData(PaperSize.A4)]
    [InlineData(PaperSize.Letter)]
    public void Layout_Record_KeepsTheRulesOfPaper(PaperSize size)
    {
        var layout = PrintedRecord.Set(Content, Code, size).Layout;

        LayoutRules.InsideTheMargins(layout);
        LayoutRules.BlocksApart(layout);
        LayoutRules.TextsInTheirCells(layout);
        LayoutRules.TextsApart(layout);
        LayoutRules.EightPointsAtLeast(layout);
        Assert.Contains(layout.Blocks, block => block is { Name: "signatures", Side: 0 });
        Assert.Contains(layout.Blocks, block => block is { Name: "code", Side: 0 });
    }

    [Theory]
    [InlineData(PaperSize.A4)]
    [InlineData(PaperSize.Letter)]
    public void Write_Record_PrintsEveryLineOfIt(PaperSize size)
    {
        var words = Words(TextOf(PrintedRecord.Write(Content, Code, size)));

        Assert.All(
            Content.Lines().SelectMany(line => line.Text.Split([' ', '|'])).Distinct(),
            word => Assert.Contains(Squeezed(word), words, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Write_Twice_IsTheSameFileByteForByte()
    {
        var file = ("cogwright-record.json", Encoding.UTF8.GetBytes("{\"a\":1}"));

        Assert.Equal(
            PrintedRecord.Write(Content, Code, PaperSize.A4, file),
            PrintedRecord.Write(Content, Code, PaperSize.A4, file)
        );
    }

    [Fact]
    public void Find_FileInThePdf_ComesOutAsItWentIn()
    {
        var data = Encoding.UTF8.GetBytes("{\"a\":\"ü → ≤\"}" + new string('x', 100_000));
        var pdf = PrintedRecord.Write(Content, Code, PaperSize.A4, ("cogwright-record.json", data));

        Assert.Equal(data, PdfAttachment.Find(pdf, "cogwright-record.json"));
        Assert.Null(PdfAttachment.Find(pdf, "other.json"));
    }

    [Fact]
    public void Find_NoPdf_IsNull() =>
        Assert.Null(PdfAttachment.Find(Encoding.UTF8.GetBytes("no PDF at all"), "a"));

    [Theory]
    [InlineData(Code)]
    [InlineData("bike/a/record/b")]
    public void SquareCode_ReadByAnotherProgram_SaysTheText(string text)
    {
        var code = SquareCode.Of(text);
        const int dot = 4;
        var side = code.Side * dot;
        var grey = new byte[side * side];
        for (var i = 0; i < grey.Length; i++)
        {
            grey[i] = code[i / side / dot, i % side / dot] ? (byte)0 : (byte)255;
        }
        var source = new RGBLuminanceSource(
            grey,
            side,
            side,
            RGBLuminanceSource.BitmapFormat.Gray8
        );
        var read = new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(source)));

        Assert.Equal(text, read?.Text);
    }

    [Fact]
    public void ToSvg_Code_HasTheDotsOfTheCode()
    {
        var code = SquareCode.Of("a");
        var dark = code.Runs().Sum(run => run.Length);
        var count = Enumerable
            .Range(0, code.Side)
            .Sum(row => Enumerable.Range(0, code.Side).Count(column => code[row, column]));

        Assert.Equal(count, dark);
        Assert.Contains("<title>a &lt; b</title>", code.ToSvg("a < b"), StringComparison.Ordinal);
    }

    [Fact]
    public void Write_LongNote_GoesOnOverleaf()
    {
        var content = Content with
        {
            Exceptions = [string.Join(' ', Enumerable.Repeat("word", 4000))],
        };

        Assert.Equal(
            4000,
            TextOf(PrintedRecord.Write(content, Code, PaperSize.A4))
                .Split([' ', '\n', '\f'])
                .Count(word => word == "word")
        );
    }

    [Fact]
    public void Write_LongNoteOfAStep_GoesOnOverleaf()
    {
        var content = Content with
        {
            Readings =
            [
                Content.Readings[0] with
                {
                    Came = string.Join(' ', Enumerable.Repeat("word", 2000)),
                },
            ],
        };

        Assert.Equal(
            2000,
            TextOf(PrintedRecord.Write(content, Code, PaperSize.A4))
                .Split([' ', '\n', '\f'])
                .Count(word => word == "word")
        );
    }

    private static string TextOf(byte[] pdf)
    {
        var path = Path.Combine(Path.GetTempPath(), $"cogwright-{Guid.NewGuid():N}.pdf");
        File.WriteAllBytes(path, pdf);
        try
        {
            using var process = Process.Start(
                new ProcessStartInfo("pdftotext", ["-raw", path, "-"])
                {
                    RedirectStandardOutput = true,
                }
            )!;
            var text = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            Assert.Equal(0, process.ExitCode);
            return text;
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static string Words(string text) =>
        Squeezed(text.Replace("\n", "", StringComparison.Ordinal));

    private static string Squeezed(string text) => text.Replace(" ", "", StringComparison.Ordinal);
}
