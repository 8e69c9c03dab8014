using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Cogwright.Setup.Procedures.Expressions;

namespace Cogwright.Files.Fields;

/// <summary>Writes the JSON Schema of a field table.</summary>
internal static class SchemaText
{
    private const string NumberPattern = @"^\s*[+\-\u2212]?(\d+(\.\d*)?|\.\d+)([eE][+\-]?\d+)?\s*";

    /// <summary>It must agree with <see cref="Cogwright.Parts.PartNames.IsId"/>.</summary>
    internal const string IdPattern = @"^(?!file$|\.+$)[a-z0-9.\-]{1,64}$";

    private static readonly JsonSerializerOptions Indented = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    internal static string Write(GroupShape whole, string id, string title)
    {
        var schema = new JsonObject
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["$id"] = id,
            ["title"] = title,
        };
        foreach (var (key, value) in Group(whole, ""))
        {
            schema[key] = value?.DeepClone();
        }
        var defs = new JsonObject();
        foreach (var dimension in Enum.GetValues<Dimension>())
        {
            defs[Name(dimension)] = Quantity(
                Expectations.Of(new QuantityShape(dimension)),
                Units.Of(dimension)
            );
        }
        defs["anyQuantity"] = Quantity(
            Expectations.Of(new AnyQuantityShape()),
            [.. Enum.GetValues<Dimension>().SelectMany(d => Units.Of(d)), new("pitches", 1, [])]
        );
        schema["$defs"] = defs;
        return Indent(schema);
    }

    /// <summary>The schema as it stands in its file.</summary>
    internal static string Indent(JsonObject schema) => schema.ToJsonString(Indented) + "\n";

    private static JsonObject Group(GroupShape group, string path)
    {
        var properties = new JsonObject();
        foreach (var field in group.Fields)
        {
            var inner = path.Length == 0 ? field.Name : $"{path}.{field.Name}";
            var schema = Of(field.Shape, inner);
            schema["description"] = FieldTable.About(inner);
            properties[field.Name] = schema;
        }
        var required = group
            .Fields.Where(f => f.Need == Need.Required)
            .Select(f => f.Name)
            .ToList();
        var result = new JsonObject
        {
            ["type"] = "object",
            ["properties"] = properties,
            ["additionalProperties"] = false,
        };
        if (required.Count > 0)
        {
            result["required"] = Strings(required);
        }
        if (path.Length == 0)
        {
            var unlessPart = group.Fields.Where(f => f.Need == Need.OrPart).ToList();
            if (unlessPart.Count > 0)
            {
                result["allOf"] = new JsonArray([
                    .. unlessPart.Select(f =>
                        AnyOf(
                            new() { ["required"] = Strings([f.Name]) },
                            new() { ["required"] = Strings([PartsFields.Group]) }
                        )
                    ),
                ]);
            }
        }
        return result;
    }

    private static JsonObject Of(Shape shape, string path) =>
        shape switch
        {
            GroupShape { Short: { } name } group => AnyOf(
                Group(group, path),
                Of(group.Find(name)!.Shape, $"{path}.{name}")
            ),
            GroupShape group => Group(group, path),
            ListShape list => new()
            {
                ["type"] = "array",
                ["items"] = Of(list.Item, path + "[]"),
                ["maxItems"] = list.Most,
            },
            TextShape text => new()
            {
                ["type"] = "string",
                ["maxLength"] = text.Most,
                ["pattern"] = @"^[^\n\r\t]*[^\s][^\n\r\t]*$",
            },
            FlagShape => new() { ["type"] = "boolean" },
            DateShape => Pattern(@"^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$"),
            CountShape => new() { ["type"] = "integer" },
            NumberShape => new() { ["type"] = "number" },
            TapeShape => AnyOf(
                new() { ["type"] = "number" },
                new() { ["type"] = "string", ["maxLength"] = 40 }
            ),
            ChoiceShape choice => new() { ["enum"] = Strings(choice.Names()) },
            NumberChoiceShape numbers => new()
            {
                ["enum"] = new JsonArray([.. numbers.Numbers.Select(n => JsonValue.Create(n))]),
            },
            QuantityShape quantity => Ref(Name(quantity.Dimension)),
            AnyQuantityShape => Ref("anyQuantity"),
            ExpressionShape => AnyOf(
                new() { ["type"] = "number" },
                new() { ["type"] = "string", ["maxLength"] = ExpressionParser.LongestText }
            ),
            OffsetShape => Offset(),
            GearShape => AnyOf(
                Group(GearShape.Group, path),
                Pattern(@"^\s*\d+\s*[/×x\-]\s*\d+\s*$")
            ),
            TeethShape => AnyOf(
                new() { ["type"] = "array", ["items"] = Of(new CountShape(), path) },
                Of(new CountShape(), path),
                Pattern(@"^\s*\d+(\s*[\-\u2013]\s*\d+)*\s*$")
            ),
            LengthsShape { MayMiss: false } => new()
            {
                ["type"] = "array",
                ["items"] = Ref(Name(Dimension.Length)),
            },
            LengthsShape => new()
            {
                ["type"] = "array",
                ["items"] = AnyOf(Ref(Name(Dimension.Length)), new() { ["type"] = "null" }),
            },
            PartIdShape => Pattern(IdPattern),
            PartIdsShape => AnyOf(
                new()
                {
                    ["type"] = "array",
                    ["items"] = Pattern(IdPattern),
                    ["maxItems"] = PartsFields.MostAdapters,
                },
                Pattern(IdPattern)
            ),
            RefusedShape => new() { ["const"] = false },
            _ => throw new ArgumentOutOfRangeException(nameof(shape)),
        };

    private static JsonObject Offset()
    {
        var length = Name(Dimension.Length);
        return AnyOf(
            new()
            {
                ["type"] = "array",
                ["items"] = Ref(length),
                ["minItems"] = 2,
                ["maxItems"] = 2,
            },
            new()
            {
                ["type"] = "object",
                ["properties"] = new JsonObject { ["x"] = Ref(length), ["y"] = Ref(length) },
                ["required"] = Strings(["x", "y"]),
                ["additionalProperties"] = false,
            }
        );
    }

    private static JsonObject Quantity(string about, IEnumerable<Unit> units)
    {
        var spellings = units.SelectMany(u => u.Spellings.Prepend(u.Name)).Select(Spelling);
        var result = AnyOf(
            new() { ["type"] = "number" },
            Pattern($"{NumberPattern}({string.Join('|', spellings)})?\\s*$")
        );
        result["description"] = about;
        return result;
    }

    /// <summary>A pattern for a unit however it is written; it must agree with <see cref="Units.Find"/>.</summary>
    private static string Spelling(string unit)
    {
        var pattern = new StringBuilder();
        foreach (var c in unit)
        {
            pattern.Append(
                c switch
                {
                    '·' => @"[ ·⋅*.\-]*",
                    _ when char.IsAsciiLetter(c) =>
                        $"[{char.ToLowerInvariant(c)}{char.ToUpperInvariant(c)}]",
                    _ => c.ToString(),
                }
            );
        }
        return pattern.ToString();
    }

    private static string Name(Dimension dimension) =>
        char.ToLowerInvariant(dimension.ToString()[0]) + dimension.ToString()[1..];

    private static JsonObject Pattern(string pattern) =>
        new() { ["type"] = "string", ["pattern"] = pattern };

    private static JsonObject Ref(string name) => new() { ["$ref"] = "#/$defs/" + name };

    private static JsonObject AnyOf(params JsonObject[] schemas) =>
        new() { ["anyOf"] = new JsonArray([.. schemas]) };

    private static JsonArray Strings(IEnumerable<string> strings) =>
        new([.. strings.Select(s => JsonValue.Create(s))]);
}
