using Cogwright.Log;

namespace Cogwright.Facts;

/// <summary>A procedure of the shop's own. Immutable.</summary>
/// <param name="Id">What it keeps for life, whatever it is called.</param>
/// <param name="Text">The whole file.</param>
/// <param name="IsRetired">Whether it is not used any more.</param>
public sealed record ShopProcedure(string Id, string Text, bool IsRetired);

/// <summary>
/// A procedure of the shop's own as the body of an entry of the shop's log, kind <c>procedure.set</c>, version 1; the last one
/// that names the procedure stands, those before it stay in the log. docs/how-to/offline.md has the table.
/// </summary>
public static class ProcedureEntry
{
    private const string Kind = "procedure.set";
    private const int Version = 1;

    /// <summary>The draft of an entry that sets the whole text; a new procedure has no id yet and gets the entry's.</summary>
    public static EntryDraft Draft(ShopProcedure procedure) =>
        new(
            "",
            Kind,
            Version,
            EntryBody.Written(json =>
            {
                json.WriteIf("procedure", procedure.Id);
                json.WriteIf("retired", procedure.IsRetired ? "true" : "");
                json.WriteIf("text", procedure.Text);
            })
        );

    /// <summary>The procedure that an entry sets, or null when it is of another kind, of a later version or not readable.</summary>
    public static ShopProcedure? Read(Entry entry) =>
        EntryBody.Read(
            entry,
            Kind,
            Version,
            body => new ShopProcedure(
                EntryBody.TextOf(body, "procedure") ?? entry.Id.ToString(),
                EntryBody.TextOf(body, "text") ?? "",
                EntryBody.TextOf(body, "retired") == "true"
            )
        );
}
