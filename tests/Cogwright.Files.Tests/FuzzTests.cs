using CsCheck;

namespace Cogwright.Files.Tests;

/// <summary>Whatever the content, the reader gives a spec or an error with a place, and throws nothing.</summary>
public sealed class FuzzTests
{
    /// <summary>COGWRIGHT_FUZZ=20 in the environment makes a run twenty times as long.</summary>
    private static readonly int Runs = int.TryParse(
        Environment.GetEnvironmentVariable("COGWRIGHT_FUZZ"),
        out var runs
    )
        ? runs
        : 1;

    private static readonly string[] Specs =
    [
        .. Repository.DemoSpecs.Select(n => Repository.Text("demo/specs/" + n)),
        Repository.Text("testdata/cases/procedures/good.yaml"),
        Repository.Text("demo/procedures/wheel-swap-motor.yaml"),
        Repository.Text("demo/tools/torque-tools.yaml"),
    ];

    /// <summary>Pieces that are likely to upset a reader of YAML or of numbers.</summary>
    private static readonly string[] Pieces =
    [
        "&a ",
        "*a",
        "!!int ",
        "? ",
        ": ",
        "- ",
        "---\n",
        "...\n",
        "%YAML 9.9\n",
        "\t",
        "\n",
        "\r",
        "{",
        "}",
        "[",
        "]",
        ",",
        "\"",
        "'",
        "\\",
        "\"\\x",
        "\"\\U0010FFFF\"",
        "\"\\UFFFFFFFF\"",
        "|\n",
        ">9\n",
        "#",
        "@",
        "`",
        "<<: ",
        "~",
        "null",
        "1e400",
        "-",
        "0x10",
        ".nan",
        "\u2028",
        "\u0085",
        "\uFEFF",
        "\u0000",
        "\uD800",
        "name",
        "teeth",
        "rings",
        "class: trail-long\n",
        "999999999999",
        "-1",
        "1e308",
        "5",
        "''",
        "\"\"",
        "[[[[[[[[[[[[[[[[[[[[[[[[",
        "? ? ? ? ",
        "- - - - ",
        "!<",
        "!<tag:x> ",
        "&",
        "*",
    ];

    private static void AssertReadsOrTells(string text)
    {
        var reading = SpecReader.Read(text, "fuzz.yaml");
        AssertPlaced(reading.Spec is not null, reading.Problems, text);
        var readings = ReadingsReader.Read(text, "fuzz.yaml");
        AssertPlaced(readings.File is not null, readings.Problems, text);
        var tools = TorqueToolsReader.Read(text, "fuzz.yaml");
        AssertPlaced(tools.Tools is not null, tools.Problems, text);
        var procedure = ProcedureReader.Read(text, "fuzz.yaml");
        AssertPlaced(procedure.Procedure is not null, procedure.Problems, text);
        Assert.All(procedure.Lint(), found => Assert.NotEmpty(found.Finding.Message));
    }

    private static void AssertPlaced(
        bool isRead,
        System.Collections.Immutable.ImmutableArray<FileProblem> problems,
        string text
    )
    {
        Assert.Equal(isRead, !problems.Any(p => p.IsError));
        var lines = text.Split('\n', '\r', '\u0085', '\u2028', '\u2029').Length;
        Assert.All(
            problems,
            p =>
            {
                Assert.InRange(p.Line, 1, lines + 1);
                Assert.InRange(p.Column, 1, text.Length + 2);
                Assert.NotEmpty(p.Message);
            }
        );
    }

    [Fact]
    public void DemoSpec_CutSplicedAndStuffed_ReadsOrTells() =>
        (
            from spec in Gen.Int[0, Specs.Length - 1].Select(i => Specs[i])
            from edits in Gen.Select(
                Gen.Double[0, 1],
                Gen.Int[0, 12],
                Gen.Int[0, Pieces.Length - 1].Select(i => Pieces[i])
            ).Array[1, 5]
            select edits.Aggregate(
                spec,
                (text, edit) =>
                {
                    var at = (int)(edit.Item1 * text.Length);
                    var cut = Math.Min(edit.Item2, text.Length - at);
                    return text.Remove(at, cut).Insert(at, edit.Item3);
                }
            )
        ).Sample(AssertReadsOrTells, iter: 3000 * Runs);

    [Fact]
    public void RandomPieces_Read_ReadOrTell() =>
        Gen.Int[0, Pieces.Length - 1]
            .Select(i => Pieces[i])
            .Array[0, 40]
            .Select(string.Concat)
            .Sample(AssertReadsOrTells, iter: 3000 * Runs);

    [Fact]
    public void RandomText_Read_ReadsOrTells() =>
        Gen.String.Sample(AssertReadsOrTells, iter: 2000 * Runs);

    [Fact]
    public void RandomBytes_Read_ReadOrTell() =>
        Gen
            .Byte.Array[0, 200]
            .Sample(
                bytes =>
                {
                    using var stream = new MemoryStream(bytes);
                    var reading = SpecReader.Read(stream, "fuzz.yaml");
                    Assert.Equal(reading.Spec is null, reading.Problems.Any(p => p.IsError));
                },
                iter: 2000 * Runs
            );
}
