namespace Cogwright.Storage;

/// <summary>
/// The changes of the tables that this version knows, oldest first. They stand here too, and a test holds the two lists
/// together: a start with nothing to change needs no model of all tables, which takes longer to build than everything else.
/// </summary>
internal static class MigrationList
{
    internal static IReadOnlyList<string> Sqlite { get; } =
    ["20261125151218_First", "20261129194156_PartLibrary", "20261130070948_JobOverview"];

    internal static IReadOnlyList<string> Postgres { get; } =
    ["20261125151230_First", "20261129194218_PartLibrary", "20261130070952_JobOverview"];

    /// <summary>The changes still to be made.</summary>
    /// <exception cref="StoreFaultException">Some that were made are not known here.</exception>
    internal static IReadOnlyList<string> Missing(
        IReadOnlyList<string> known,
        IReadOnlyCollection<string> applied,
        string place
    ) =>
        applied.Except(known).FirstOrDefault() is { } later
            ? throw StoreFaultException.Of(
                StoreFaultKind.FromLaterVersion,
                Texts.Get("store.laterVersion", place, later)
            )
            : [.. known.Except(applied)];
}
