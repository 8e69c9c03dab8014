using System.Collections.Immutable;
using Cogwright.Files.Fields;
using Cogwright.Parts;
using CsCheck;

namespace Cogwright.Files.Tests;

/// <summary>Random parts come back from their files, and no content makes a reader throw.</summary>
public sealed class PartsRoundTripTests
{
    /// <summary>The long campaign looks forty times as long.</summary>
    private static readonly int Runs =
        Environment.GetEnvironmentVariable("COGWRIGHT_LONG") == "1" ? 40 : 1;

    private static readonly string[] Paths =
    [
        .. FieldTable
            .Walk(SpecFields.Spec)
            .Where(row => row.Field.Shape is not (GroupShape or ListShape or RefusedShape))
            .Select(row => row.Path.Replace("[]", "[0]", StringComparison.Ordinal))
            .Where(path => SpecValueReader.Refused(path) is null),
    ];

    private static readonly string[] Texts =
    [
        "1",
        "12",
        "-3.5",
        "45 mm",
        "true",
        "long",
        "trail-long",
        "touring-triple",
        "[-9, -28]",
        "11-13-15",
        "[3.3, 3.4]",
        "rear-outboard-stop",
        "cable",
        "single-pivot",
        "0.4 N·m/rad",
        "outboard",
    ];

    private static readonly Gen<string> Line = Gen.Char["ab Z,;\"'#:-äß中{}[]&*!|>%@`=\\"]
        .Array[1, 20]
        .Select(c => new string(c).Trim())
        .Where(s => s.Length > 0);

    private static readonly Gen<string> Tag = Gen.Char["abZ019.-"]
        .Array[1, 8]
        .Select(c => new string(c));

    private static Gen<PartValue> ValueOf(PartField field) =>
        field.Shape switch
        {
            PartShape.Tag => Tag.Select(t => (PartValue)new PartValue.Tags([t])),
            PartShape.Tags => Tag.Array[1, 4].Select(t => (PartValue)new PartValue.Tags([.. t])),
            PartShape.Whole => Gen.Int[(int)field.Least, (int)field.Most]
                .Select(n => (PartValue)new PartValue.Number(n)),
            PartShape.Wholes => Gen.Int[(int)field.Least, (int)field.Most]
                .HashSet[1, 14]
                .Select(n =>
                    (PartValue)new PartValue.Numbers([.. n.Order().Select(i => (double)i)])
                ),
            PartShape.Lengths => Gen.Double[field.Least, field.Most]
                .Array[1, 12]
                .Select(n => (PartValue)new PartValue.Numbers([.. n])),
            _ => Gen.Double[field.Least, field.Most]
                .Select(n => (PartValue)new PartValue.Number(n)),
        };

    private static readonly Gen<KeyValuePair<string, string>> SpecValue =
        from path in Gen.Int[0, Paths.Length - 1].Select(i => Paths[i])
        from text in Gen.Int[0, Texts.Length - 1].Select(i => Texts[i])
        where new SpecValueReader(new()).Read(path, text) is null
        select new KeyValuePair<string, string>(path, text);

    private static readonly Gen<Part> AnyPart =
        from kind in Gen.Enum<PartKind>()
        from fields in Gen.Shuffle(PartFields.Of(kind).ToArray(), 0, PartFields.Of(kind).Length)
        from values in fields
            .Select(f => ValueOf(f).Select(v => (Field: f, Value: v)))
            .Aggregate(
                Gen.Const(ImmutableDictionary<PartField, PartValue>.Empty),
                (all, one) => Gen.Select(all, one, (a, o) => a.Add(o.Field, o.Value))
            )
        from name in Line
        from maker in Gen.Bool.SelectMany(b => b ? Line : Gen.Const(""))
        from source in Gen.Bool.SelectMany(b => b ? Line : Gen.Const(""))
        from stock in Gen.Int[-1, 30]
        from spec in SpecValue.Array[0, 4]
        select new Part
        {
            Id = "x",
            Kind = kind,
            Name = name,
            Maker = maker,
            Source = source,
            InStock = stock < 0 ? null : stock,
            Values = values,
            SpecValues = spec.DistinctBy(s => s.Key)
                .ToImmutableSortedDictionary(s => s.Key, s => s.Value, StringComparer.Ordinal),
        };

    private static readonly Gen<Part[]> AnyParts = AnyPart
        .Array[0, 8]
        .Select(parts => parts.Select((p, i) => p with { Id = $"p.{i}-a" }).ToArray());

    private static void AssertSame(Part[] parts, PartsReading back, string text)
    {
        Assert.True(back.Problems.IsEmpty, string.Join('\n', back.Problems) + "\n" + text);
        Assert.Equal(parts, back.Parts);
    }

    [Fact]
    public void Parts_WrittenAsYamlAndRead_AreTheSame() =>
        AnyParts.Sample(
            parts =>
            {
                var text = PartsWriter.ToYaml(parts);
                AssertSame(parts, PartsReader.Read(text, "parts.yaml"), text);
            },
            iter: 200 * Runs
        );

    [Fact]
    public void Parts_WrittenAsCsvAndRead_AreTheSame() =>
        AnyParts.Sample(
            parts =>
            {
                var text = PartsWriter.ToCsv(parts);
                AssertSame(parts, PartsReader.Read(text, "parts.csv"), text);
            },
            iter: 200 * Runs
        );

    private static void AssertReadsOrTells(string text)
    {
        foreach (var name in (string[])["fuzz.csv", "fuzz.yaml"])
        {
            var reading = PartsReader.Read(text, name);
            Assert.True(reading.BadEntries >= 0);
            Assert.True(
                reading.BadEntries == 0 || reading.Problems.Any(p => p.IsError),
                "an entry was dropped without a word"
            );
            Assert.All(reading.Parts, part => Assert.True(PartNames.IsId(part.Id)));
            var lines = text.Split('\n', '\r', '\u0085', '\u2028', '\u2029').Length;
            Assert.All(
                reading.Problems,
                p =>
                {
                    Assert.InRange(p.Line, 1, lines + 1);
                    Assert.InRange(p.Column, 1, text.Length + 2);
                    Assert.NotEmpty(p.Message);
                }
            );
        }
    }

    private static readonly string[] Pieces =
    [
        "\"",
        "\"\"",
        ",",
        ";",
        "\t",
        "\n",
        "\r",
        "\r\n",
        "[",
        "]",
        "{",
        "}",
        "- ",
        ": ",
        "&a ",
        "*a",
        "!!int ",
        "...\n",
        "---\n",
        "\u0000",
        "\uD800",
        "\u0085",
        "\uFEFF",
        "1e999",
        "-1",
        "0x1",
        "nan",
        "null",
        "id",
        "kind: chain\n",
        "chain",
        "parts:\n",
        "spec.adjusters[99999999999].name",
        "spec.rings[].teeth",
        "spec.adjusters[2].name: x\n",
    ];

    [Fact]
    public void PartsFiles_CutSplicedAndStuffed_ReadOrTell() =>
        (
            from parts in AnyParts
            from isCsv in Gen.Bool
            from edits in Gen.Select(
                Gen.Double[0, 1],
                Gen.Int[0, 12],
                Gen.Int[0, Pieces.Length - 1].Select(i => Pieces[i])
            ).Array[1, 5]
            select edits.Aggregate(
                isCsv ? PartsWriter.ToCsv(parts) : PartsWriter.ToYaml(parts),
                (text, edit) =>
                {
                    var at = (int)(edit.Item1 * text.Length);
                    var cut = Math.Min(edit.Item2, text.Length - at);
                    return text.Remove(at, cut).Insert(at, edit.Item3);
                }
            )
        ).Sample(AssertReadsOrTells, iter: 300 * Runs);

    [Fact]
    public void RandomPieces_Read_ReadOrTell() =>
        Gen.Int[0, Pieces.Length - 1]
            .Select(i => Pieces[i])
            .Array[0, 40]
            .Select(pieces => "id,kind,name\n" + string.Concat(pieces))
            .Sample(AssertReadsOrTells, iter: 300 * Runs);

    [Fact]
    public void RandomBytes_Read_ReadOrTell() =>
        Gen
            .Byte.Array[0, 300]
            .Sample(
                bytes =>
                {
                    foreach (var name in (string[])["fuzz.csv", "fuzz.yaml", "fuzz"])
                    {
                        using var stream = new MemoryStream(bytes);
                        var reading = PartsReader.ReadAsync(stream, name);
                        Assert.True(reading.IsCompletedSuccessfully);
                    }
                },
                iter: 300 * Runs
            );

    /// <summary>Parts may give any field of a spec any text; the spec is read or the trouble is told, and nothing is thrown.</summary>
    [Fact]
    public void SpecOfRandomParts_Read_ReadsOrTells() =>
        Gen.Select(SpecValue.Array[0, 12], AnyPart)
            .Sample(
                (given, other) =>
                {
                    var rear = new Part
                    {
                        Id = "rear",
                        Kind = PartKind.RearDerailleur,
                        Name = "Rear",
                        SpecValues = given
                            .DistinctBy(s => s.Key)
                            .ToImmutableSortedDictionary(
                                s => s.Key,
                                s => s.Value,
                                StringComparer.Ordinal
                            )
                            .SetItem("rearDerailleur.class", "touring-long"),
                    };
                    var library = new PartLibrary([rear, other with { Id = "other" }]);
                    var named =
                        other.Kind == PartKind.RearDerailleur
                            ? ""
                            : $", {(other.Kind == PartKind.Adapter ? "adapters" : PartKinds.NameOf(other.Kind))}: other";
                    var reading = SpecReader.Read(
                        $$"""
                        name: Alder
                        parts: {rearDerailleur: rear{{named}}}
                        frame: {class: touring}
                        hanger: {class: mountain}
                        rings: [40]
                        cogs: {teeth: 11-13-15-17-20-23-26-30-34}
                        """,
                        "bike.yaml",
                        library
                    );
                    Assert.Equal(reading.Spec is null, reading.Problems.Any(p => p.IsError));
                },
                iter: 500 * Runs
            );
}
