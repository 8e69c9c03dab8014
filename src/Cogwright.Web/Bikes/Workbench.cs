using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Bench;
using Cogwright.Files;

namespace Cogwright.Web.Bikes;

/// <summary>
/// The bike on the stand: its history, what the model says of it, the gear looked at, and what is tried on it. All pages look at
/// this one and hear of changes through <see cref="Changed"/>.
/// </summary>
public sealed class Workbench
{
    private readonly IBikeShelf shelf;
    private Stand? stand;
    private Task lastChange = Task.CompletedTask;
    private string? missing;
    private int turn;

    // So long (ms) the page may stand still: less than a finger notices.
    private const int BreathMs = 40;

    /// <summary>An empty stand.</summary>
    /// <param name="shelf">Where the bikes are kept.</param>
    public Workbench(IBikeShelf shelf)
    {
        this.shelf = shelf;
        shelf.Changed += () => _ = FollowAsync();
    }

    /// <summary>Something that a page shows has changed.</summary>
    public event Action? Changed;

    /// <summary><see cref="Computing"/> has changed.</summary>
    public event Action? Progressed;

    /// <summary>
    /// How far the geometry is computed from the measurements (0 to 1), or null when nothing is being computed. Until then
    /// <see cref="AsSpec"/> is the bike before the last change.
    /// </summary>
    public double? Computing { get; private set; }

    /// <summary>The last computing; it ends when it is done, stopped, or overtaken by another change.</summary>
    public Task Computed { get; private set; } = Task.CompletedTask;

    /// <summary>Id of the bike, or null when none is on the stand.</summary>
    public string? Id => stand?.Id;

    /// <summary>Its changes so far.</summary>
    public BikeHistory History { get; private set; } = BikeHistory.Empty;

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

    /// <summary>Whether the spec as it stands can be computed.</summary>
    public bool IsCurrent => Reading?.Spec is not null;

    /// <summary>Whether <see cref="AsSpec"/> is not yet the spec as it stands, although that can be computed.</summary>
    public bool IsBehind => Reading?.Spec is { } file && !ReferenceEquals(AsSpec?.File, file);

    /// <summary>Puts a bike on the stand.</summary>
    /// <returns>Whether there is one with that id.</returns>
    public async Task<bool> OpenAsync(string id)
    {
        if (Id == id)
        {
            return true;
        }
        if (await shelf.OpenAsync(id).ConfigureAwait(true) is not { } history)
        {
            missing = id;
            return false;
        }
        missing = null;
        stand = new(id);
        AsSpec = Bike = null;
        Trial = Trial.None;
        Gear = default;
        Take(history);
        return true;
    }

    /// <summary>Changes the spec; the change is kept on the device before this ends.</summary>
    /// <param name="sheet">What it shall say: what it says now with something changed.</param>
    /// <param name="what">What somebody did, as a sentence.</param>
    public Task ChangeAsync(SpecSheet sheet, string what)
    {
        // What was changed is told from what the spec says now; what comes in before the turn stays.
        var change = History.To(sheet, what, NewId());
        return InTurnAsync(_ => change);
    }

    /// <summary>
    /// Changes the spec as it is when the turn comes, after every change before; the change is kept on the device before this
    /// ends.
    /// </summary>
    /// <param name="change">What the sheet shall become.</param>
    /// <param name="what">What somebody did, as a sentence.</param>
    public Task ChangeAsync(Func<SpecSheet, SpecSheet> change, string what) =>
        InTurnAsync(history => history.To(change(history.Sheet), what, NewId()));

    /// <summary>
    /// Settles what two devices set differently: sets the field, also to what it shows now, as an entry that has seen both.
    /// </summary>
    /// <param name="path">The field.</param>
    /// <param name="text">What it shall say; null takes it out.</param>
    /// <param name="what">What somebody did, as a sentence.</param>
    public Task SettleAsync(string path, string? text, string what) =>
        InTurnAsync(_ => new SpecChange(
            NewId(),
            what,
            ImmutableSortedDictionary
                .Create<string, string?>(StringComparer.Ordinal)
                .Add(path, text)
        ));

    /// <summary>Takes the last change back.</summary>
    public Task UndoAsync() => InTurnAsync(history => history.Undo(NewId()));

    /// <summary>Makes the last change taken back again.</summary>
    public Task RedoAsync() => InTurnAsync(history => history.Redo(NewId()));

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
    /// Adds a change to the bike that is on the stand now once every change before it is kept: two that overlap would each
    /// begin from a history without the other.
    /// </summary>
    private Task InTurnAsync(Func<BikeHistory, SpecChange?> make)
    {
        if (stand is not { } here)
        {
            return Task.CompletedTask;
        }
        return lastChange = After(lastChange);

        async Task After(Task before)
        {
            // Whoever made a change that failed was told; it must not take the next one with it.
            await before.ConfigureAwait(
                ConfigureAwaitOptions.SuppressThrowing
                    | ConfigureAwaitOptions.ContinueOnCapturedContext
            );
            await AddAsync(here, make).ConfigureAwait(true);
        }
    }

    private async Task AddAsync(Stand here, Func<BikeHistory, SpecChange?> make)
    {
        var history =
            here == stand
                ? History
                : await shelf.OpenAsync(here.Id).ConfigureAwait(true)
                    ?? throw new InvalidOperationException(here.Id);
        if (make(history) is not { } change)
        {
            return;
        }
        if (here.Id.StartsWith(DemoWorkshop.IdPrefix, StringComparison.Ordinal))
        {
            // A demo bike stays as it is; the change makes a bike of one's own from it.
            var first = BikeHistory.Empty.To(history.Sheet, Texts.Get("change.demo"), NewId())!;
            here.Id = await shelf.StartAsync(first, here.Id).ConfigureAwait(true);
        }
        var now = await shelf.AddAsync(here.Id, change).ConfigureAwait(true);
        if (here == stand)
        {
            Take(now);
        }
    }

    /// <summary>What another tab or device changed shows here at once.</summary>
    private async Task FollowAsync()
    {
        if (missing is { } wanted)
        {
            // It may have come from another device meanwhile.
            await OpenAsync(wanted).ConfigureAwait(true);
        }
        else if (
            Id is { } id
            && !id.StartsWith(DemoWorkshop.IdPrefix, StringComparison.Ordinal)
            && await shelf.OpenAsync(id).ConfigureAwait(true) is { } history
            && id == Id
        )
        {
            Take(history);
        }
    }

    private void Take(BikeHistory history)
    {
        if (ReferenceEquals(history, History))
        {
            return;
        }
        History = history;
        Reading = history.Sheet.Check();
        // What is being computed of the spec before is of no use any more.
        turn++;
        Computing = null;
        if (Reading.Spec is { } file)
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

    /// <summary>
    /// Fits the mechanism to its measurements. There is one thread: between the steps the page gets its turn, so that the next
    /// reading can come in, and a newer spec ends the work on this one.
    /// </summary>
    private async Task ComputeAsync(SpecFile file)
    {
        var mine = turn;
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
        AsSpec = computed;
        Bike = Trial == Trial.None ? AsSpec : AsSpec.With(Trial);
        if (AsSpec.Table.Find(Gear) is null)
        {
            Gear = AsSpec.GapGear;
        }
    }

    private static string NewId() => Guid.CreateVersion7().ToString();

    /// <summary>One bike's time on the stand: a demo bike gets an id of its own meanwhile.</summary>
    private sealed class Stand(string id)
    {
        internal string Id { get; set; } = id;
    }
}
