using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Bench;
using Cogwright.Facts;
using Cogwright.Files;
using Cogwright.Parts;
using Cogwright.Web.Parts;

namespace Cogwright.Web.Bikes;

/// <summary>
/// The bike on the stand: its history, what the model says of it, the gear looked at, and what is tried on it. All pages look at
/// this one and hear of changes through <see cref="Changed"/>.
/// </summary>
public sealed class Workbench
{
    /// <summary>Each costs some tens of milliseconds, and a spec that was wrong for longer than this was never looked at.</summary>
    private const int EarlierSheetsTried = 50;

    private readonly IBikeShelf shelf;
    private readonly PartShelf? parts;
    private Stand? stand;
    private string? wanted;
    private Task lastChange = Task.CompletedTask;
    private int turn;
    private PartLibrary? readWith;
    private BikeHistory? read;

    // The shop was asked for these once: it is not asked again at each change of a bike that names what nobody has.
    private readonly HashSet<string> askedFor = [];

    // So long (ms) the page may stand still: less than a finger notices.
    private const int BreathMs = 40;

    /// <summary>An empty stand.</summary>
    /// <param name="shelf">Where the bikes are kept.</param>
    /// <param name="parts">The library in which the specs' parts are looked up; none when null.</param>
    public Workbench(IBikeShelf shelf, PartShelf? parts = null)
    {
        this.shelf = shelf;
        this.parts = parts;
        shelf.Changed += id => _ = FollowAsync(id);
        if (parts is not null)
        {
            parts.Changed += LookAgain;
        }
    }

    /// <summary>Something that a page shows has changed.</summary>
    public event Action? Changed;

    /// <summary>What another tab or device changed could not be shown, or the mechanism could not be computed.</summary>
    public event Action<Exception>? Failed;

    /// <summary>Id of the bike, or null when none is on the stand.</summary>
    public string? Id => stand?.Id;

    /// <summary>
    /// The id that it was asked for by: another one than <see cref="Id"/> after the first change of a demo bike has made it a bike of
    /// one's own.
    /// </summary>
    public string? OpenedAs => stand?.OpenedAs;

    /// <summary><see cref="Computing"/> has changed.</summary>
    public event Action? Progressed;

    /// <summary>
    /// How far the geometry is computed from the measurements (0 to 1), or null when nothing is being computed. Until then
    /// <see cref="AsSpec"/> is the bike before the last change.
    /// </summary>
    public double? Computing { get; private set; }

    /// <summary>The last computing; it ends when it is done, stopped, or overtaken by another change.</summary>
    public Task Computed { get; private set; } = Task.CompletedTask;

    /// <summary>Its changes so far.</summary>
    public BikeHistory History => stand?.History ?? BikeHistory.Empty;

    /// <summary>The spec as it was read, with what is wrong in it.</summary>
    public SpecReading? Reading { get; private set; }

    /// <summary>The bike as the spec says, nothing tried; the last one that could be computed while the spec has errors.</summary>
    public ComputedBike? AsSpec { get; private set; }

    /// <summary>The bike with what is tried on it.</summary>
    public ComputedBike? Bike { get; private set; }

    /// <summary>What is tried.</summary>
    public Trial Trial { get; private set; } = Trial.None;

    /// <summary>The gear looked at.</summary>
    public Gear Gear { get; private set; }

    /// <summary>The library of parts, or null when there is none.</summary>
    public PartLibrary? Library => parts?.Library;

    /// <summary>Whether the spec as it stands can be computed.</summary>
    public bool IsCurrent => Reading?.Spec is not null;

    /// <summary>Whether <see cref="AsSpec"/> is not yet the spec as it stands, although that can be computed.</summary>
    public bool IsBehind => Reading?.Spec is { } file && !ReferenceEquals(AsSpec?.File, file);

    /// <summary>Puts a bike on the stand.</summary>
    /// <returns>Whether there is one with that id.</returns>
    public async Task<bool> OpenAsync(string id)
    {
        wanted = id;
        if (Id == id)
        {
            return true;
        }
        var history = await shelf.OpenAsync(id).ConfigureAwait(true);
        if (parts is not null && history?.Sheet.NamesParts == true)
        {
            // Before it is on the stand: else its page would show it with errors for a moment.
            await parts.ReadyAsync().ConfigureAwait(true);
        }
        if (history is null || wanted != id || Id == id)
        {
            // Meanwhile another one was asked for, or this one came in another way.
            return history is not null;
        }
        stand = new(id);
        AsSpec = Bike = null;
        Trial = Trial.None;
        Gear = default;
        read = null;
        askedFor.UnionWith(history.Sheet.NamedIds());
        await TakeAsync(stand, history).ConfigureAwait(true);
        if (history.Sheet.NamesParts)
        {
            // Another device may have brought in, or changed, what this bike names.
            _ = parts?.RefreshAsync();
        }
        return true;
    }

    /// <summary>Changes the spec; the change is kept on the device before this ends.</summary>
    /// <param name="sheet">What it shall say: what it says now with something changed.</param>
    /// <param name="what">What somebody did, as a sentence.</param>
    public Task ChangeAsync(SpecSheet sheet, string what)
    {
        // The page made the sheet from what it sees: what differs from that is the change, also when others are still being kept.
        var change = History.To(sheet, what);
        return AddAsync(_ => change);
    }

    /// <summary>
    /// Changes the spec as it is when the turn comes, after every change before; the change is kept on the device before this
    /// ends.
    /// </summary>
    /// <param name="change">What the sheet shall become.</param>
    /// <param name="what">What somebody did, as a sentence.</param>
    public Task ChangeAsync(Func<SpecSheet, SpecSheet> change, string what) =>
        AddAsync(history => history.To(change(history.Sheet), what));

    /// <summary>
    /// Settles what two devices set differently: sets the field, also to what it shows now, as an entry that has seen both.
    /// </summary>
    /// <param name="path">The field.</param>
    /// <param name="text">What it shall say; null takes it out.</param>
    /// <param name="what">What somebody did, as a sentence.</param>
    public Task SettleAsync(string path, string? text, string what)
    {
        var change = new SpecChange(
            what,
            ImmutableSortedDictionary
                .Create<string, string?>(StringComparer.Ordinal)
                .Add(path, text)
        );
        return AddAsync(_ => change);
    }

    /// <summary>Takes the last change back.</summary>
    public Task UndoAsync() => AddAsync(history => history.Undo());

    /// <summary>Makes the last change taken back again.</summary>
    public Task RedoAsync() => AddAsync(history => history.Redo());

    /// <summary>
    /// Makes the demo bike on the stand a bike of one's own, for what is kept in its log beside the spec; any other bike is one's own
    /// already.
    /// </summary>
    /// <returns>The bike's id, or null when none is on the stand.</returns>
    public async Task<string?> OwnAsync()
    {
        if (stand is not { } on)
        {
            return null;
        }
        lastChange = OwnAsync(on, lastChange);
        await lastChange.ConfigureAwait(true);
        return on.Id;
    }

    private async Task OwnAsync(Stand on, Task before)
    {
        await before.ConfigureAwait(
            ConfigureAwaitOptions.ContinueOnCapturedContext | ConfigureAwaitOptions.SuppressThrowing
        );
        if (
            await StartOwnAsync(on).ConfigureAwait(true)
            && await shelf.OpenAsync(on.Id).ConfigureAwait(true) is { } history
        )
        {
            await TakeAsync(on, history).ConfigureAwait(true);
        }
    }

    /// <summary>A demo bike stays as it is; what is done to it makes a bike of one's own from it.</summary>
    private async Task<bool> StartOwnAsync(Stand on)
    {
        if (!on.Id.StartsWith(DemoWorkshop.IdPrefix, StringComparison.Ordinal))
        {
            return false;
        }
        var first = BikeHistory.Empty.To(on.History.Sheet, Texts.Get("change.demo"))!;
        on.Id = await shelf.StartAsync(first, on.Id).ConfigureAwait(true);
        return true;
    }

    /// <summary>Looks at another gear.</summary>
    public void Choose(Gear gear)
    {
        Gear = gear;
        Changed?.Invoke();
    }

    /// <summary>Tries something without changing the spec.</summary>
    public void Try(Trial trial)
    {
        Trial = trial;
        if (AsSpec is { } asSpec)
        {
            // A gear is named by its teeth: with another size of ring or cog it is the same place on the bike.
            var place = Bike?.Table.Find(Gear);
            Bike = asSpec.With(trial);
            if (place is { } at)
            {
                Gear = new(Bike.Spec.Rings[at.RingIndex].Teeth, Bike.Spec.Cogs.Teeth[at.CogIndex]);
            }
        }
        Changed?.Invoke();
    }

    /// <summary>
    /// Tries something while a hand is still moving: the gear looked at is solved, nothing else, and nobody is told until
    /// <see cref="Try"/> follows at rest.
    /// </summary>
    public GearTable? TryMoving(Trial trial)
    {
        Trial = trial;
        return AsSpec?.Moving(trial, Gear);
    }

    /// <summary>Drops what is tried without telling anybody: a change of the spec follows and tells.</summary>
    internal void Drop()
    {
        Trial = Trial.None;
        Bike = AsSpec;
    }

    /// <summary>The gear looked at as the spec names it: the same ring and cog before anything is tried.</summary>
    public Gear GearAsSpec =>
        Bike?.Table.Find(Gear) is { } at && AsSpec is { } asSpec
            ? new(asSpec.Spec.Rings[at.RingIndex].Teeth, asSpec.Spec.Cogs.Teeth[at.CogIndex])
            : Gear;

    /// <summary>
    /// Keeps a change of the bike that is on the stand now, after those that are still being kept: each is made from what the one
    /// before it left, and the first one of a demo bike has made it a bike of one's own.
    /// </summary>
    private Task AddAsync(Func<BikeHistory, SpecChange?> change) =>
        stand is { } on ? lastChange = AddAsync(on, change, lastChange) : Task.CompletedTask;

    private async Task AddAsync(Stand on, Func<BikeHistory, SpecChange?> change, Task before)
    {
        // Who asked for that one hears if it failed.
        await before.ConfigureAwait(
            ConfigureAwaitOptions.ContinueOnCapturedContext | ConfigureAwaitOptions.SuppressThrowing
        );
        if (change(on.History) is not { } made)
        {
            return;
        }
        await StartOwnAsync(on).ConfigureAwait(true);
        await TakeAsync(on, await shelf.AddAsync(on.Id, made).ConfigureAwait(true))
            .ConfigureAwait(true);
    }

    /// <summary>What another tab or device changed shows here at once.</summary>
    private async Task FollowAsync(string? id)
    {
        try
        {
            if (
                stand is { } on
                && id == on.Id
                && await shelf.OpenAsync(on.Id).ConfigureAwait(true) is { } history
            )
            {
                await TakeAsync(on, history).ConfigureAwait(true);
            }
        }
#pragma warning disable CA1031 // Whatever it is: nobody waits for this, so it is handed to who can show it.
        catch (Exception e)
#pragma warning restore CA1031
        {
            Failed?.Invoke(e);
        }
    }

    private async Task TakeAsync(Stand on, BikeHistory history)
    {
        on.History = history;
        if (parts is not null && history.Sheet.NamesParts)
        {
            await parts.ReadyAsync().ConfigureAwait(true);
        }
        // Another bike may be on the stand by now, and this one has perhaps gone on.
        if (ReferenceEquals(on, stand) && !ReferenceEquals(on.History, read))
        {
            Read(on.History);
        }
    }

    /// <summary>The library has changed: a part that was not known may be there now, or be another one.</summary>
    private void LookAgain()
    {
        if (
            stand is not { History: { Sheet.NamesParts: true } history }
            || ReferenceEquals(Library, readWith)
            || !ReferenceEquals(history, read)
        )
        {
            return;
        }
        var isSame =
            (IsCurrent || AsSpec is not null)
            && history.Sheet.NamedIds().All(id => Equals(Library?.Find(id), readWith?.Find(id)));
        readWith = Library;
        if (!isSame)
        {
            Read(history);
        }
    }

    /// <summary>What another device has fitted may be in the shop's library by now.</summary>
    private void AskForUnknown(SpecSheet sheet)
    {
        var unknown = sheet.NamedIds().Where(id => Library?.Find(id) is null).ToList();
        if (parts is not null && !askedFor.IsSupersetOf(unknown))
        {
            askedFor.UnionWith(unknown);
            _ = parts.RefreshAsync();
        }
    }

    private void Read(BikeHistory history)
    {
        read = history;
        readWith = Library;
        Reading = history.Sheet.Check(Library);
        // What is being computed of the spec before is of no use any more.
        turn++;
        Computing = null;
        if ((Reading.Spec ?? (AsSpec is null ? LastGood(history) : null)) is { } file)
        {
            if (ComputedBike.IsMeasured(file))
            {
                Computed = ComputeAsync(file);
            }
            else
            {
                Adopt(ComputedBike.Of(file, fit: null));
            }
        }
        Changed?.Invoke();
        Progressed?.Invoke();
        AskForUnknown(history.Sheet);
    }

    /// <summary>Stops computing; what is shown stays what it is.</summary>
    public void StopComputing()
    {
        turn++;
        Computing = null;
        Progressed?.Invoke();
        Changed?.Invoke();
    }

    /// <summary>Computes what was stopped.</summary>
    public void ComputeNow()
    {
        if (IsBehind && Computing is null && Reading?.Spec is { } file)
        {
            turn++;
            Computed = ComputeAsync(file);
            Progressed?.Invoke();
        }
    }

    /// <summary>Computes, and hands a fault to who can show it: nobody waits for this.</summary>
    private async Task ComputeAsync(SpecFile file)
    {
        var mine = turn;
        try
        {
            await ComputeAsync(file, mine).ConfigureAwait(true);
        }
#pragma warning disable CA1031 // Whatever it is: it must not look as if it were still being computed.
        catch (Exception e)
#pragma warning restore CA1031
        {
            if (mine == turn)
            {
                Computing = null;
            }
            Failed?.Invoke(e);
            Progressed?.Invoke();
        }
    }

    /// <summary>
    /// Fits the mechanism to its measurements. There is one thread: between the steps the page gets its turn, so that the next
    /// reading can come in, and a newer spec ends the work on this one.
    /// </summary>
    private async Task ComputeAsync(SpecFile file, int mine)
    {
        Computing = 0;
        BenchFit? fit = null;
        await Task.Delay(1).ConfigureAwait(true);
        var since = Environment.TickCount64;
        foreach (var share in BenchGeometry.Steps(file.Drivetrain, found => fit = found))
        {
            if (mine != turn)
            {
                return;
            }
            if (Environment.TickCount64 - since < BreathMs)
            {
                continue;
            }
            Computing = share;
            Progressed?.Invoke();
            await Task.Delay(1).ConfigureAwait(true);
            since = Environment.TickCount64;
        }
        if (mine != turn)
        {
            return;
        }
        Computing = null;
        Adopt(ComputedBike.Of(file, fit));
        Changed?.Invoke();
        Progressed?.Invoke();
    }

    private void Adopt(ComputedBike computed)
    {
        var before = AsSpec?.Spec;
        AsSpec = computed;
        Trial = before is null ? Trial.None : Trial.After(before, AsSpec.Spec);
        Bike = Trial == Trial.None ? AsSpec : AsSpec.With(Trial);
        if (Bike.Table.Find(Gear) is null)
        {
            Gear = Bike.GapGear;
        }
    }

    /// <summary>The last spec before the errors, or null when there is none that is not too long ago.</summary>
    private SpecFile? LastGood(BikeHistory history) =>
        history
            .Earlier()
            .Take(EarlierSheetsTried)
            .Select(sheet => sheet.Check(Library).Spec)
            .FirstOrDefault(spec => spec is not null);

    /// <summary>A place for one bike; who has begun something on it goes on with it, whatever is on the stand meanwhile.</summary>
    private sealed class Stand(string id)
    {
        internal string OpenedAs { get; } = id;

        internal string Id { get; set; } = id;

        internal BikeHistory History { get; set; } = BikeHistory.Empty;
    }
}
