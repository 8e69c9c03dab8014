using System.Reflection;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace Cogwright.Storage;

/// <summary>
/// The changes of the tables that this version knows, read from the attributes alone: a start with nothing to change needs
/// no model of all tables, which takes longer to build than everything else together.
/// </summary>
internal static class MigrationList
{
    /// <summary>The changes of a context, oldest first.</summary>
    internal static IReadOnlyList<string> Of(Type context) =>
        [
            .. typeof(MigrationList)
                .Assembly.GetTypes()
                .Where(type => type.IsSubclassOf(typeof(Migration)))
                .Where(type =>
                    type.GetCustomAttribute<DbContextAttribute>()?.ContextType == context
                )
                .Select(type => type.GetCustomAttribute<MigrationAttribute>()!.Id)
                .Order(StringComparer.Ordinal),
        ];

    /// <summary>The changes still to be made.</summary>
    /// <exception cref="StoreFaultException">Some that were made are not known here.</exception>
    internal static IReadOnlyList<string> Missing(
        Type context,
        IReadOnlyCollection<string> applied,
        string place
    )
    {
        var known = Of(context);
        return applied.Except(known).FirstOrDefault() is { } later
            ? throw StoreFaultException.Of(
                StoreFaultKind.FromLaterVersion,
                Texts.Get("store.laterVersion", place, later)
            )
            : [.. known.Except(applied)];
    }
}
