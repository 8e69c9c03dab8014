using System.Text.Json.Nodes;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>
/// The JSON Schema (2020-12) of parts files in YAML or JSON, made from the fields of parts. What a part gives to a spec is
/// described by the schema of specs; here only the reader knows it.
/// </summary>
public static class PartsSchema
{
    private const string TagPattern = @"^[A-Za-z0-9.\-]{1,64}$";

    /// <summary>The schema as indented JSON.</summary>
    public static string ToJson()
    {
        var properties = new JsonObject
        {
            ["id"] = Described(Pattern(SchemaText.IdPattern), Texts.Get("parts.about.id")),
            ["kind"] = Described(
                new() { ["enum"] = Strings(PartKinds.All.Select(PartKinds.NameOf)) },
                Texts.Get("parts.about.kind")
            ),
            ["name"] = Described(Line(), Texts.Get("parts.about.name")),
            ["maker"] = Described(Line(), Texts.Get("parts.about.maker")),
            ["source"] = Described(Line(), Texts.Get("parts.about.source")),
            ["inStock"] = Described(
                new()
                {
                    ["type"] = "integer",
                    ["minimum"] = 0,
                    ["maximum"] = PartEntryReader.MostInStock,
                },
                Texts.Get("parts.about.inStock")
            ),
        };
        foreach (var field in PartFields.All)
        {
            properties[field.Name] = Described(
                Of(field),
                field.Unit.Length > 0
                    ? Texts.Get("parts.about.length", field.Title, field.Unit)
                    : field.Title
            );
        }
        properties["spec"] = Described(
            new() { ["type"] = "object" },
            Texts.Get("parts.about.spec")
        );
        var schema = new JsonObject
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["$id"] = "urn:cogwright:parts:1",
            ["title"] = Texts.Get("schema.parts"),
            ["type"] = "object",
            ["properties"] = new JsonObject
            {
                ["format"] = new JsonObject { ["const"] = YamlParts.Format },
                ["parts"] = new JsonObject
                {
                    ["type"] = "array",
                    ["items"] = new JsonObject
                    {
                        ["type"] = "object",
                        ["properties"] = properties,
                        ["additionalProperties"] = false,
                        ["required"] = Strings(PartEntryReader.Needed),
                        ["allOf"] = new JsonArray([.. PartKinds.All.Select(OfKind)]),
                    },
                },
            },
            ["additionalProperties"] = false,
            ["required"] = Strings(["parts"]),
        };
        return SchemaText.Indent(schema);
    }

    /// <summary>A part of a kind has the fields of its kind.</summary>
    private static JsonObject OfKind(PartKind kind) =>
        new()
        {
            ["if"] = new JsonObject
            {
                ["properties"] = new JsonObject
                {
                    ["kind"] = new JsonObject { ["const"] = PartKinds.NameOf(kind) },
                },
            },
            ["then"] = new JsonObject
            {
                ["propertyNames"] = new JsonObject
                {
                    ["enum"] = Strings([
                        .. PartEntryReader.OfEvery,
                        .. PartFields.Of(kind).Select(field => field.Name),
                        YamlParts.SpecGroup,
                    ]),
                },
            },
        };

    private static JsonObject Of(PartField field) =>
        field.Shape switch
        {
            PartShape.Tag => AnyOf(Pattern(TagPattern), new() { ["type"] = "number" }),
            PartShape.Tags => AnyOf(
                List(AnyOf(Pattern(TagPattern), new() { ["type"] = "number" })),
                Pattern(@"^[A-Za-z0-9.\-]+([ ,;]+[A-Za-z0-9.\-]+)*$")
            ),
            PartShape.Whole => Number("integer", field),
            PartShape.Length => AnyOf(Number("number", field), Pattern(@"^[0-9.,\- ]+[a-z""]*$")),
            PartShape.Number => AnyOf(Number("number", field), Pattern("^[0-9]+,[0-9]+$")),
            PartShape.Wholes => AnyOf(
                List(Number("integer", field)),
                Number("integer", field),
                Pattern(@"^[0-9]+([ ,;/\-\u2013]+[0-9]+)*$")
            ),
            PartShape.Lengths => AnyOf(
                List(Number("number", field)),
                Number("number", field),
                Pattern("^[0-9.,]+([ ,;]+[0-9.,]+)*$")
            ),
            _ => throw new ArgumentOutOfRangeException(nameof(field)),
        };

    private static JsonObject Number(string type, PartField field) =>
        new()
        {
            ["type"] = type,
            ["minimum"] = field.Least,
            ["maximum"] = field.Most,
        };

    private static JsonObject Line() =>
        new()
        {
            ["type"] = "string",
            ["maxLength"] = PartEntryReader.LongestText,
            ["pattern"] = @"^[^\n\r\t]*[^\s][^\n\r\t]*$",
        };

    private static JsonObject Described(JsonObject schema, string about)
    {
        schema["description"] = about;
        return schema;
    }

    private static JsonObject List(JsonObject item) =>
        new() { ["type"] = "array", ["items"] = item };

    private static JsonObject Pattern(string pattern) =>
        new() { ["type"] = "string", ["pattern"] = pattern };

    private static JsonObject AnyOf(params JsonObject[] schemas) =>
        new() { ["anyOf"] = new JsonArray([.. schemas]) };

    private static JsonArray Strings(IEnumerable<string> strings) =>
        new([.. strings.Select(s => JsonValue.Create(s))]);
}
