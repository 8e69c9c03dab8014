using System.Collections.Immutable;
using Cogwright.Facts;
using Cogwright.Files;
using Cogwright.Setup.Procedures;

namespace Cogwright.Web.Jobs;

/// <summary>A procedure that can be begun.</summary>
/// <param name="Id">Its name in the program.</param>
/// <param name="Text">The file.</param>
/// <param name="Procedure">What the file says.</param>
internal sealed record ProcedureOnShelf(string Id, string Text, Procedure Procedure);

/// <summary>The procedures of the invented demo workshop, carried in the program.</summary>
internal static class ProcedureShelf
{
    private const string Prefix = "procedure/";

    private static ImmutableArray<ProcedureOnShelf> all = [];

    /// <summary>All of them, by title; taken apart when first asked for.</summary>
    internal static ImmutableArray<ProcedureOnShelf> All =>
        all.IsEmpty
            ? all = [
                .. typeof(ProcedureShelf)
                    .Assembly.GetManifestResourceNames()
                    .Where(name => name.StartsWith(Prefix, StringComparison.Ordinal))
                    .Select(Read)
                    .OrderBy(each => each.Procedure.Title, StringComparer.Ordinal),
            ]
            : all;

    /// <summary>Those of the shop's own that can be begun, by title: in use, readable, and with nothing that should not stand so.</summary>
    internal static ImmutableArray<ProcedureOnShelf> Of(IEnumerable<ShopProcedure> own) =>
        [
            .. own.Where(procedure => !procedure.IsRetired)
                .Select(procedure =>
                    (procedure, reading: ProcedureReader.Read(procedure.Text, procedure.Id))
                )
                .Where(each => each.reading.Procedure is not null && each.reading.Lint().IsEmpty)
                .Select(each => new ProcedureOnShelf(
                    each.procedure.Id,
                    each.procedure.Text,
                    each.reading.Procedure!
                ))
                .OrderBy(each => each.Procedure.Title, StringComparer.Ordinal),
        ];

    private static ProcedureOnShelf Read(string name)
    {
        using var stream = typeof(ProcedureShelf).Assembly.GetManifestResourceStream(name)!;
        using var reader = new StreamReader(stream);
        var text = reader.ReadToEnd();
        return new(
            name[Prefix.Length..],
            text,
            ProcedureReader.Read(text, name).Procedure ?? throw new InvalidOperationException(name)
        );
    }
}
