using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>
/// The JSON Schema (2020-12) of spec files, made from the same field table as the reader. It says how a file is
/// written; what cannot be (cogs out of order, overlapping sprockets) only the reader knows.
/// </summary>
public static class SpecSchema
{
    /// <summary>The schema as indented JSON.</summary>
    public static string ToJson() =>
        SchemaText.Write(SpecFields.Spec, "urn:cogwright:spec:1", Texts.Get("schema.spec"));
}

/// <summary>The JSON Schema (2020-12) of procedure files.</summary>
public static class ProcedureSchema
{
    /// <summary>The schema as indented JSON.</summary>
    public static string ToJson() =>
        SchemaText.Write(
            ProcedureFields.Procedure,
            "urn:cogwright:procedure:1",
            Texts.Get("schema.procedure")
        );
}

/// <summary>The JSON Schema (2020-12) of readings files.</summary>
public static class ReadingsSchema
{
    /// <summary>The schema as indented JSON.</summary>
    public static string ToJson() =>
        SchemaText.Write(
            ReadingsFields.Readings,
            "urn:cogwright:readings:1",
            Texts.Get("schema.readings")
        );
}
