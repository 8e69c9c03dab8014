using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Cogwright.Files.Documents;
using Json.Schema;

namespace Cogwright.Files.Tests;

/// <summary>The schemas agree with the reader, because both come from one table.</summary>
public sealed class SchemaTests
{
    private static readonly JsonSchema Spec = JsonSchema.FromText(SpecSchema.ToJson());

    public static TheoryData<string> Specs => [.. Repository.DemoSpecs];

    [Fact]
    public void SpecSchema_Stored_IsTheGenerated() =>
        Stored.AssertEqual("schemas/spec.schema.json", SpecSchema.ToJson());

    [Fact]
    public void ReadingsSchema_Stored_IsTheGenerated() =>
        Stored.AssertEqual("schemas/readings.schema.json", ReadingsSchema.ToJson());

    [Theory]
    [MemberData(nameof(Specs))]
    public void DemoSpec_AgainstSchema_IsValid(string name) =>
        Assert.True(IsValid(Spec, Repository.Text("demo/specs/" + name)));

    [Theory]
    [InlineData("unknown-field")]
    [InlineData("unknown-unit")]
    [InlineData("unknown-choice")]
    [InlineData("unknown-class")]
    [InlineData("unknown-fastener")]
    [InlineData("decimal-comma-unit")]
    [InlineData("half-tooth")]
    [InlineData("oval-ring")]
    [InlineData("missing-name")]
    [InlineData("value-for-list")]
    public void BadSpec_AgainstSchemaAndReader_FailsInBoth(string name)
    {
        var text = Repository.Text($"testdata/cases/bad-specs/{name}.yaml");

        Assert.False(IsValid(Spec, text));
        Assert.Null(SpecReader.Read(text, name).Spec);
    }

    [Theory]
    [InlineData("16.5 in", true)]
    [InlineData("16.5\"", true)]
    [InlineData("419,1 mm", false)]
    [InlineData("2 furlong", false)]
    public void LengthWithUnit_SchemaAndReader_Agree(string length, bool isGood)
    {
        var text = Repository
            .Text("demo/specs/model-example.yaml")
            .Replace("chainstay: 410", $"chainstay: '{length}'", StringComparison.Ordinal);

        Assert.Equal(isGood, IsValid(Spec, text));
        Assert.Equal(isGood, SpecReader.Read(text, "bike.yaml").Spec is not null);
    }

    [Theory]
    [InlineData("name: Alder\nparts: {cassette: alder-9, adapters: [spacer-1.85]}", true)]
    [InlineData("name: Alder\nparts: {cassette: Alder 9}", false)]
    [InlineData("name: Alder\nparts: {brake: alder-9}", false)]
    [InlineData("name: Alder\nframe: {class: road-race}\nrings: [40]", false)]
    public void SpecThatNamesParts_AgainstSchema_NeedsNothingElse(string text, bool isGood) =>
        Assert.Equal(isGood, IsValid(Spec, text));

    [Fact]
    public void Readings_AgainstSchema_AreValid() =>
        Assert.True(
            IsValid(JsonSchema.FromText(ReadingsSchema.ToJson()), ReadingsReaderTests.Example)
        );

    internal static bool IsValid(JsonSchema schema, string yaml)
    {
        var node = DocumentReader.Read(yaml, new ProblemList("test"));
        using var json = JsonDocument.Parse(ToJson(node!)!.ToJsonString());
        return schema.Evaluate(json.RootElement).IsValid;
    }

    /// <summary>YAML's own reading of plain values (core schema), apart from the product's.</summary>
    private static JsonNode? ToJson(Node node) =>
        node switch
        {
            MappingNode mapping => new JsonObject(
                mapping.Entries.Select(e => KeyValuePair.Create(e.Name, ToJson(e.Value)))
            ),
            SequenceNode sequence => new JsonArray([.. sequence.Items.Select(ToJson)]),
            ScalarNode { IsEmpty: true } => null,
            ScalarNode { IsQuoted: false, Text: "true" } => JsonValue.Create(true),
            ScalarNode { IsQuoted: false, Text: "false" } => JsonValue.Create(false),
            ScalarNode { IsQuoted: false } scalar
                when double.TryParse(
                    scalar.Text,
                    NumberStyles.Float,
                    CultureInfo.InvariantCulture,
                    out var number
                ) && double.IsFinite(number) => JsonValue.Create(number),
            ScalarNode scalar => JsonValue.Create(scalar.Text),
            _ => throw new ArgumentOutOfRangeException(nameof(node)),
        };
}
