using System.Text;
using Cogwright.Parts;
using Json.Schema;

namespace Cogwright.Files.Tests;

/// <summary>Parts files give every good part, and tell of every bad entry what is wrong where.</summary>
public sealed class PartsReaderTests
{
    private const string Yaml = """
        format: 1
        parts:
          - id: alder-11-34
            kind: cassette
            name: Alder 11-34
            maker: Osmead Cogs
            source: the maker's sheet
            inStock: 3
            hubDriver: spline-35
            teeth: [11, 12, 13, 15, 17, 19, 21, 24, 27, 30, 34]
            spacing: 3.72
          - id: marsh-long
            kind: rearDerailleur
            name: "Marsh: long"
            shiftRatio: 1.1
            generations: [a1, a2]
            spec:
              rearDerailleur.class: trail-long
              rearDerailleur.upperPivot: [-22, -38.5]
              rearDerailleur:
                cage:
                  spring: {rate: "0.4 N·m/rad"}

        """;

    private static readonly JsonSchema Schema = JsonSchema.FromText(PartsSchema.ToJson());

    private static PartsReading ReadGood(string text, string name)
    {
        var reading = PartsReader.Read(text, name);
        Assert.Empty(reading.Problems);
        Assert.Equal(0, reading.BadEntries);
        return reading;
    }

    private static Part OnlyPart(string text, string name = "parts.csv") =>
        Assert.Single(ReadGood(text, name).Parts);

    [Fact]
    public void YamlFile_Read_GivesItsParts()
    {
        var parts = ReadGood(Yaml, "parts.yaml").Parts;

        Assert.Equal(["alder-11-34", "marsh-long"], parts.Select(p => p.Id));
        Assert.Equal(PartKind.Cassette, parts[0].Kind);
        Assert.Equal("Osmead Cogs", parts[0].Maker);
        Assert.Equal("the maker's sheet", parts[0].Source);
        Assert.Equal(3, parts[0].InStock);
        Assert.Equal("spline-35", parts[0].Tag(PartFields.HubDriver));
        Assert.Equal(11, parts[0].Numbers(PartFields.Teeth).Length);
        Assert.Equal(3.72, parts[0].Number(PartFields.Spacing));
        Assert.Equal("Marsh: long", parts[1].Name);
        Assert.Null(parts[1].InStock);
        Assert.Equal(["a1", "a2"], parts[1].Tags(PartFields.Generations));
        Assert.Equal("[-22, -38.5]", parts[1].SpecValues["rearDerailleur.upperPivot"]);
        Assert.Equal("0.4 N·m/rad", parts[1].SpecValues["rearDerailleur.cage.spring.rate"]);
    }

    [Theory]
    [InlineData(',', "\"11,12,13\"", "3.95")]
    [InlineData(';', "11 12 13", "3,95")]
    [InlineData('\t', "11-12-13", "3.95 mm")]
    [InlineData(';', "[11, 12, 13]", "\"3,95\"")]
    [InlineData(',', "13/12/11", "0.39499999999999996 cm")]
    public void CsvFile_AnySeparatorAndWayToWriteFigures_GivesTheSamePart(
        char separator,
        string teeth,
        string spacing
    )
    {
        var text =
            "id;kind;name;teeth;spacing\r\n".Replace(';', separator)
            + $"a;cassette;Alder;{{0}};{{1}}\r\n".Replace(';', separator);

        var part = OnlyPart(
            string.Format(System.Globalization.CultureInfo.InvariantCulture, text, teeth, spacing)
        );

        Assert.Equal([11, 12, 13], part.Numbers(PartFields.Teeth));
        Assert.Equal(3.95, part.Number(PartFields.Spacing)!.Value, 1e-12);
    }

    [Theory]
    [InlineData("3.3 3.4")]
    [InlineData("3,3 3,4")]
    [InlineData("3,3; 3,4")]
    [InlineData("\"3.3, 3.4\"")]
    [InlineData("\"3.3,3.4\"")]
    public void CsvLengths_PointOrComma_AreTheSame(string pull)
    {
        var part = OnlyPart($"id\tkind\tname\tpull\na\trearShifter\tA\t{pull}\n");

        Assert.Equal([3.3, 3.4], part.Numbers(PartFields.Pull));
    }

    [Fact]
    public void CsvQuotes_HoldSeparatorsQuotesAndSpecValues()
    {
        var part = OnlyPart(
            "id,kind,name,spec.rearDerailleur.upperPivot,spec.adjusters[0].name\r\n"
                + "a,rearDerailleur,\"Marsh, \"\"long\"\"\",\"[-22, -38.5]\",stop screw\r\n"
        );

        Assert.Equal("Marsh, \"long\"", part.Name);
        Assert.Equal("[-22, -38.5]", part.SpecValues["rearDerailleur.upperPivot"]);
        Assert.Equal("stop screw", part.SpecValues["adjusters[0].name"]);
    }

    [Fact]
    public void BadRows_AreToldWithTheirPlace_AndTheGoodOnesStand()
    {
        const string text = """
            id,kind,name,teeth,spacing,note
            a,cassette,Alder,11 12 13,3.95,fine

            b,casette,Birch,11 12,3.95,
            C d,cassette,Cedar,11 12,3.95,
            a,cassette,Again,11 12,3.95,
            e,cassette,"Elm
            wood",11 12,3.95,
            f,cassette,Fir,11-34,3.95,
            g,chain,Gorse,11 12,,
            h,cassette,Holly,11 12,39.5,
            i,cassette,Ivy,11 twelve,3.95,,,more
            ,cassette,Juniper,11 12,3.95,
            k,cassette,Kapok,11 12 13,3.9,
            """;

        var reading = PartsReader.Read(text, "parts.csv");

        Assert.Equal(["a", "k"], reading.Parts.Select(p => p.Id));
        Assert.Equal(11, reading.Entries);
        Assert.Equal(9, reading.BadEntries);
        var told = reading
            .Problems.Select(p => $"{p.Line}:{p.Column} {p.Field} {(p.IsError ? "!" : "-")}")
            .ToList();
        Assert.Equal(
            [
                "1:28 note -",
                "4:3 kind !",
                "5:1 id !",
                "6:1 id !",
                "7:12 name !",
                "9:16 teeth !",
                "10:15 teeth !",
                "11:24 spacing !",
                "12:16 teeth !",
                "12:33  !",
                "13:1 id !",
            ],
            told
        );
        Assert.Contains("did you mean \"cassette\"", reading.Problems[1].Message, default);
        Assert.Contains("in line 2", reading.Problems[3].Message, default);
        Assert.Contains("list every cog", reading.Problems[5].Message, default);
        Assert.Contains("2 to 8 mm", reading.Problems[7].Message, default);
    }

    [Fact]
    public void BadYamlEntries_AreToldWithTheirPlace_AndTheGoodOnesStand()
    {
        const string text = """
            format: 1
            parts:
              - id: a
                kind: chain
                name: A
              - just text
              - id: b
                kind: chain
                name: B
                teeth: [11]
              - id: c
                kind: chain
                name: C
                width: {mm: 6}
              - id: d
                kind: chain
                name: D
                name: twice
              - id: e
                kind: rearDerailleur
                name: E
                spec: {rearDerailleur.slannt: 3, name: x, rearDerailleur.slant: steep}
              - id: f
                kind: chain
                name: F
            colour: red
            """;

        var reading = PartsReader.Read(text, "parts.yaml");

        Assert.Equal(["a", "f"], reading.Parts.Select(p => p.Id));
        Assert.Equal(5, reading.BadEntries);
        Assert.Equal(
            [6, 10, 14, 18, 22, 22, 22, 26],
            reading.Problems.Where(p => p.IsError).Select(p => p.Line)
        );
    }

    [Fact]
    public void BrokenYaml_KeepsThePartsBeforeIt()
    {
        var reading = PartsReader.Read(Yaml + "  - id: [\n", "parts.yaml");

        Assert.Equal(2, reading.Parts.Length);
        Assert.Contains(reading.Problems, p => p.IsError);
    }

    [Theory]
    [InlineData("", "a.yaml")]
    [InlineData("", "a.csv")]
    [InlineData("name: Hesby", "a.yaml")]
    [InlineData("- id: a", "a.yaml")]
    [InlineData("parts: 3", "a.yaml")]
    [InlineData("parts: []\nformat: 2", "a.yaml")]
    [InlineData("id,name\na,b", "a.csv")]
    [InlineData("id,kind,name\n\"a,chain,b\nc,chain,d\n", "a.csv")]
    [InlineData("parts:\n  - id: \u0001", "a.yaml")]
    public void FileThatIsNone_IsToldAndGivesNothing(string text, string name)
    {
        var reading = PartsReader.Read(text, name);

        Assert.Empty(reading.Parts);
        Assert.Contains(reading.Problems, p => p.IsError);
    }

    [Fact]
    public void ContentWithoutKnownEnding_IsToldApartByItself()
    {
        Assert.Equal(2, PartsReader.Read(Yaml, "upload").Parts.Length);
        Assert.Single(PartsReader.Read("id,kind,name\na,chain,b\n", "upload").Parts);
    }

    [Fact]
    public async Task Utf16WithMark_ReadsAsASpreadsheetWritesIt()
    {
        byte[] bytes =
        [
            .. Encoding.Unicode.GetPreamble(),
            .. Encoding.Unicode.GetBytes("id\tkind\tname\na\tchain\tÄrla\n"),
        ];
        using var stream = new MemoryStream(bytes);

        var reading = await PartsReader.ReadAsync(
            stream,
            "parts.csv",
            cancellation: TestContext.Current.CancellationToken
        );

        Assert.Equal("Ärla", Assert.Single(reading.Parts).Name);
    }

    [Fact]
    public async Task OtherEncoding_IsToldWithItsPlace()
    {
        using var stream = new MemoryStream([.. "id,kind,name\na,chain,"u8, 0xC4, .. "rla\n"u8]);

        var reading = await PartsReader.ReadAsync(
            stream,
            "parts.csv",
            cancellation: TestContext.Current.CancellationToken
        );

        var problem = Assert.Single(reading.Problems);
        Assert.Equal((2, 9), (problem.Line, problem.Column));
    }

    private static string ManyRows(int count)
    {
        var text = new StringBuilder(
            "id,kind,name,maker,hubDriver,teeth,spacing,spec.cogs.recess\r\n"
        );
        for (var i = 0; i < count; i++)
        {
            text.Append(
                System.Globalization.CultureInfo.InvariantCulture,
                $"c-{i},cassette,Alder {i % 97},Osmead,spline-35,11 12 13 15 17 19 21 24 28,4.34,1.{i % 10}\r\n"
            );
        }
        return text.ToString();
    }

    [Fact]
    public async Task HundredThousandRows_AreReadWithProgress()
    {
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(ManyRows(100_000)));
        var told = new List<int>();

        var reading = await PartsReader.ReadAsync(
            stream,
            "parts.csv",
            rows =>
            {
                told.Add(rows);
                return Task.CompletedTask;
            },
            TestContext.Current.CancellationToken
        );

        Assert.Equal(100_000, reading.Parts.Length);
        Assert.Empty(reading.Problems);
        Assert.Equal(101, told.Count);
        Assert.Equal(told.Order(), told);
    }

    [Fact]
    public async Task Cancelled_Reading_Stops()
    {
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(ManyRows(5_000)));
        using var stop = new CancellationTokenSource();

        await Assert.ThrowsAsync<OperationCanceledException>(() =>
            PartsReader.ReadAsync(stream, "parts.csv", _ => stop.CancelAsync(), stop.Token)
        );
    }

    [Fact]
    public void Table_WithoutAColumn_KeepsWhatTheLibraryHas()
    {
        var library = new PartLibrary(
            PartsReader
                .Read(
                    "id,kind,name,maker,inStock,width,spec.work.assisted\na,chain,A,M,3,5.25,true\n",
                    "a.csv"
                )
                .Parts
        );

        var kept = PartsReader.Read("id,kind,name\na,chain,B\n", "b.csv").Over(library)[0];
        var emptied = PartsReader
            .Read("id,kind,name,inStock,width\na,chain,B,,\n", "b.csv")
            .Over(library)[0];
        var entry = PartsReader
            .Read("parts: [{id: a, kind: chain, name: B}]\n", "b.yaml")
            .Over(library)[0];

        Assert.Equal(library.Find("a")! with { Name = "B" }, kept);
        Assert.Null(emptied.InStock);
        Assert.Null(emptied.Number(PartFields.Width));
        Assert.Equal("M", emptied.Maker);
        Assert.Equal(
            new Part
            {
                Id = "a",
                Kind = PartKind.Chain,
                Name = "B",
            },
            entry
        );
    }

    [Theory]
    [InlineData("id,kind,name\na,chain,A\nb,chain,\"B\nc,chain,C\n", 3, 9)]
    [InlineData("id,\"kind,name\na,chain,A\n", 1, 4)]
    [InlineData("id,kind,name,instok\na,chain,A,3\n", 1, 14)]
    [InlineData("id,kind,name,spec.hanger.offst\na,hanger,A,3\n", 1, 14)]
    [InlineData("id,kind,name,name\na,chain,A,B\n", 1, 14)]
    public void Table_WrongAsAWhole_IsBrokenAndToldWithItsPlace(string text, int line, int column)
    {
        var reading = PartsReader.Read(text, "parts.csv");

        Assert.True(reading.IsBroken);
        var problem = Assert.Single(reading.Problems);
        Assert.True(problem.IsError);
        Assert.Equal((line, column), (problem.Line, problem.Column));
    }

    [Theory]
    [InlineData("file", false)]
    [InlineData("..", false)]
    [InlineData("Chain", false)]
    [InlineData("file-1", true)]
    [InlineData("a.b", true)]
    public void Id_ThatMeansSomethingElseInAnAddress_IsRefused(string id, bool isGood)
    {
        var text = $"parts: [{{id: {id}, kind: chain, name: A}}]\n";

        var reading = PartsReader.Read(text, "parts.yaml");

        Assert.Equal(isGood ? 1 : 0, reading.Parts.Length);
        Assert.Equal(isGood, PartNames.IsId(id));
        Assert.Equal(isGood, SchemaTests.IsValid(Schema, "format: 1\n" + text));
    }

    [Fact]
    public void Entry_ThatIsBad_DoesNotBreakTheFile()
    {
        Assert.False(PartsReader.Read("id,kind,name\na,chian,A\n", "parts.csv").IsBroken);
        Assert.False(
            PartsReader.Read("parts: [{id: a, kind: chian, name: A}]\n", "parts.yaml").IsBroken
        );
        Assert.True(PartsReader.Read("parts:\n  - id: [\n", "parts.yaml").IsBroken);
    }

    [Fact]
    public void Preview_OfAnImport_TellsFieldByField()
    {
        var library = new PartLibrary(ReadGood(Yaml, "parts.yaml").Parts);
        var text = Yaml.Replace("spacing: 3.72", "stackWidth: 39", StringComparison.Ordinal)
            .Replace("inStock: 3", "inStock: 2", StringComparison.Ordinal)
            .Replace("rate: \"0.4 ", "rate: \"0.5 ", StringComparison.Ordinal);
        var more = text + "  - {id: new, kind: chain, name: New}\n  - {id: bad, kind: chain}\n";

        var preview = PartImport.Preview(library, PartsReader.Read(more, "parts.yaml"));

        Assert.Equal("new", Assert.Single(preview.Added).Id);
        Assert.Equal(2, preview.Changed.Length);
        Assert.Equal(
            [new("inStock", "3", "2"), new("spacing", "3.72", ""), new("stackWidth", "", "39")],
            preview.Changed[0].Fields
        );
        Assert.Equal(
            [new("spec.rearDerailleur.cage.spring.rate", "0.4 N·m/rad", "0.5 N·m/rad")],
            preview.Changed[1].Fields
        );
        Assert.Empty(preview.Same);
        Assert.Equal("name", Assert.Single(preview.Problems).Field);
        Assert.Equal(3, preview.Library.Count);
        var again = PartImport.Preview(library, PartsReader.Read(Yaml, "parts.yaml"));
        Assert.Equal(2, again.Same.Length);
        Assert.Same(library, again.Library);
    }

    [Fact]
    public void PartsSchema_Stored_IsTheGenerated() =>
        Stored.AssertEqual("schemas/parts.schema.json", PartsSchema.ToJson());

    [Theory]
    [InlineData(Yaml, true)]
    [InlineData("parts:\n  - {id: a, kind: chain, name: A, width: 6.6}", true)]
    [InlineData("parts:\n  - {id: a, kind: chain, name: A, teeth: [11]}", false)]
    [InlineData("parts:\n  - {id: A, kind: chain, name: A}", false)]
    [InlineData("parts:\n  - {id: a, kind: chain}", false)]
    [InlineData("parts:\n  - {id: a, kind: bell, name: A}", false)]
    [InlineData("parts:\n  - {id: a, kind: chain, name: A, width: 66}", false)]
    public void Yaml_SchemaAndReader_Agree(string text, bool isGood)
    {
        Assert.Equal(isGood, SchemaTests.IsValid(Schema, text));
        Assert.Equal(isGood, PartsReader.Read(text, "parts.yaml").Problems.IsEmpty);
    }
}
