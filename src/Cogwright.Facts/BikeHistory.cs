using System.Collections.Immutable;
using Cogwright.Files;

namespace Cogwright.Facts;

/// <summary>
/// What the changes of a spec come to: the sheet as it is now, and what can be taken back or made again. A fold over the
/// changes in their order; nothing is ever overwritten, so taking back is a change too. Immutable.
/// </summary>
public sealed record BikeHistory
{
    /// <summary>The history before the first change.</summary>
    public static BikeHistory Empty { get; } = new();

    /// <summary>The spec as it is now.</summary>
    public SpecSheet Sheet { get; private init; } = SpecSheet.Empty;

    /// <summary>All changes, the first one first.</summary>
    public ImmutableList<SpecChange> Changes { get; private init; } = [];

    private ImmutableStack<Step> Done { get; init; } = [];

    private ImmutableStack<Step> TakenBack { get; init; } = [];

    /// <summary>What <see cref="Undo"/> would take back, or null.</summary>
    public SpecChange? NextUndo => Done.IsEmpty ? null : Done.Peek().Change;

    /// <summary>What <see cref="Redo"/> would make again, or null.</summary>
    public SpecChange? NextRedo => TakenBack.IsEmpty ? null : TakenBack.Peek().Change;

    /// <summary>The history with one change more.</summary>
    public BikeHistory With(SpecChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        var before = change.Fields.ToImmutableSortedDictionary(
            field => field.Key,
            field => Sheet[field.Key]
        );
        var sheet = change.Fields.Aggregate(
            Sheet,
            (now, field) => now.With(field.Key, field.Value)
        );
        var next = this with { Sheet = sheet, Changes = Changes.Add(change) };
        if (change.Undoes is { } undone && NextUndo?.Id == undone)
        {
            return next with { Done = Done.Pop(), TakenBack = TakenBack.Push(Done.Peek()) };
        }
        if (change.Redoes is { } redone && NextRedo?.Id == redone)
        {
            return next with { Done = Done.Push(TakenBack.Peek()), TakenBack = TakenBack.Pop() };
        }
        // The first change is the bike itself: before it there is nothing to go back to.
        return Changes.IsEmpty
            ? next
            : next with
            {
                Done = Done.Push(new(change, before)),
                TakenBack = [],
            };
    }

    /// <summary>The change that takes the last one back, or null when there is none.</summary>
    public SpecChange? Undo() =>
        Done.IsEmpty
            ? null
            : new(Texts.Get("change.undo", NextUndo!.What), Done.Peek().Before)
            {
                Undoes = NextUndo.Id,
            };

    /// <summary>The change that makes the last one taken back again, or null when there is none.</summary>
    public SpecChange? Redo() =>
        TakenBack.IsEmpty
            ? null
            : new(Texts.Get("change.redo", NextRedo!.What), NextRedo.Fields)
            {
                Redoes = NextRedo.Id,
            };

    /// <summary>The change from the sheet as it is to another, or null when they say the same.</summary>
    public SpecChange? To(SpecSheet sheet, string what)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var fields = Sheet
            .Values.Keys.Union(sheet.Values.Keys)
            .Where(path => Sheet[path] != sheet[path])
            .ToImmutableSortedDictionary(path => path, path => sheet[path], StringComparer.Ordinal);
        return fields.IsEmpty ? null : new(what, fields);
    }

    /// <summary>The sheets before the one that holds now, the latest first.</summary>
    public IEnumerable<SpecSheet> Earlier()
    {
        var sheets = new Stack<SpecSheet>();
        var sheet = SpecSheet.Empty;
        foreach (var change in Changes)
        {
            sheets.Push(sheet);
            sheet = change.Fields.Aggregate(
                sheet,
                (now, field) => now.With(field.Key, field.Value)
            );
        }
        return sheets;
    }

    private sealed record Step(
        SpecChange Change,
        ImmutableSortedDictionary<string, string?> Before
    );
}
