using System.Runtime.ExceptionServices;
using System.Text.Json;
using Cogwright.Log;

namespace Cogwright.Web.Device;

/// <summary>
/// Brings entries to the shop's server and fetches those of others, whenever it can be reached; nothing on a screen waits for it.
/// It fetches before it sends; after a failure it waits, each time twice as long.
/// </summary>
internal sealed class Courier
{
    private static readonly TimeSpan FirstWait = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan LongestWait = TimeSpan.FromMinutes(5);

    // Edits come in bursts.
    private static readonly TimeSpan Burst = TimeSpan.FromMilliseconds(250);

    private readonly DeviceShelf shelf;
    private readonly IShop shop;
    private readonly ISignals signals;
    private readonly IDeviceStore store;
    private readonly TimeProvider clock;
    private readonly HashSet<LogId> due = [];
    private TaskCompletionSource woken = new();
    private bool isAllDue = true;
    private bool isHeard;
    private bool hasSignals;
    private int failures;
    private int streamFailures;
    private DateTimeOffset listenedAt;
    private TaskCompletionSource broken = new();
    private TimeSpan? asked;

    public Courier(
        DeviceShelf shelf,
        IShop shop,
        ISignals signals,
        IDeviceStore store,
        TimeProvider clock
    )
    {
        this.shelf = shelf;
        this.shop = shop;
        this.signals = signals;
        this.store = store;
        this.clock = clock;
        Photos = new(shelf, shop, clock);
        shelf.Written += log =>
        {
            due.Add(log);
            // While the server is gone the next try has its time already.
            if (failures == 0 && State != ContactState.LogIn)
            {
                woken.TrySetResult();
            }
        };
        signals.Woke += TryNow;
        signals.Slept += () =>
        {
            isHeard = false;
            signals.StopListening();
        };
        signals.StreamEnded += () =>
        {
            // One that lasted ends for some reason that is over, as when the server was started anew. One that breaks off again and
            // again would have us knock without end.
            streamFailures = clock.GetUtcNow() - listenedAt < LongestWait ? streamFailures + 1 : 0;
            isHeard = false;
            isAllDue = true;
            (streamFailures > 1 ? broken : woken).TrySetResult();
        };
        signals.Grown += OnGrown;
    }

    /// <summary>How the device stands with the server has changed.</summary>
    internal event Action? Changed;

    /// <summary>How the device stands with the server.</summary>
    internal ContactState State { get; private set; }

    /// <summary>What the server, or the browser in its place, said last.</summary>
    internal string Said { get; private set; } = "";

    /// <summary>The photos that lie beside the logs.</summary>
    internal PhotoExchange Photos { get; }

    /// <summary>Whether it is at it now.</summary>
    internal bool IsBusy { get; private set; }

    /// <summary>Who the server takes this browser for; null: not known.</summary>
    internal ShopPerson? Person { get; private set; }

    /// <summary>When it tries again by itself, or null.</summary>
    internal DateTimeOffset? NextTry { get; private set; }

    /// <summary>Works until the page is closed.</summary>
    internal async Task RunAsync()
    {
        await shelf.ReadyAsync().ConfigureAwait(true);
        while (true)
        {
            await BeginSignalsAsync().ConfigureAwait(true);
            await TryAsync().ConfigureAwait(true);
            await WaitAsync().ConfigureAwait(true);
        }
    }

    private async Task BeginSignalsAsync()
    {
        if (hasSignals)
        {
            return;
        }
        try
        {
            await signals.BeginAsync().ConfigureAwait(true);
            hasSignals = true;
        }
        catch (Microsoft.JSInterop.JSException)
        {
            // Its script did not come; entries are sent without it, and it is asked for again at the next try.
        }
    }

    /// <summary>Tries at once, whatever it waits for.</summary>
    internal void TryNow()
    {
        isAllDue = true;
        woken.TrySetResult();
    }

    /// <summary>Logs in, then goes on.</summary>
    /// <returns>What the server said against it; null: it is done.</returns>
    internal async Task<string?> LogInAsync(string userName, string password)
    {
        try
        {
            Person = await shop.LogInAsync(userName, password, shelf.Device).ConfigureAwait(true);
            await RememberPersonAsync().ConfigureAwait(true);
            failures = 0;
            TryNow();
            return null;
        }
        catch (ShopException e)
        {
            return e.Fault == ShopFault.Gone ? Texts.Get("storage.gone") : e.Message;
        }
    }

    /// <summary>
    /// Logs out. What is entered from then on is from this device and no person; nothing that is here is touched.
    /// </summary>
    /// <returns>What the server said against it; null: it is done.</returns>
    internal async Task<string?> LogOutAsync()
    {
        try
        {
            await shop.LogOutAsync().ConfigureAwait(true);
        }
        catch (ShopException e)
        {
            return e.Fault == ShopFault.Gone ? Texts.Get("storage.logOut.gone") : e.Message;
        }
        Person = null;
        await shelf.SetAsync(Setting.Account, "").ConfigureAwait(true);
        TryNow();
        return null;
    }

    /// <summary>One try; public to the tests, which have no time to wait.</summary>
    internal async Task TryAsync()
    {
        IsBusy = true;
        NextTry = null;
        asked = null;
        Changed?.Invoke();
        try
        {
            await using (await store.LockAsync("exchange").ConfigureAwait(true))
            {
                await ExchangeAsync().ConfigureAwait(true);
            }
            failures = 0;
            State = ContactState.Reached;
            Said = "";
        }
        catch (ShopException e)
        {
            failures++;
            isAllDue = true;
            asked = e.RetryAfter;
            Said = e.Message;
            State = e.Fault switch
            {
                ShopFault.Gone => ContactState.Gone,
                ShopFault.LogIn => ContactState.LogIn,
                _ => ContactState.Refused,
            };
        }
        catch (Exception e)
            when (e
                    is KeepException
                        or InvalidOperationException
                        or FormatException
                        or Microsoft.JSInterop.JSException
            )
        {
            failures++;
            isAllDue = true;
            Said = e.Message;
            State = ContactState.Refused;
        }
        IsBusy = false;
        Changed?.Invoke();
    }

    private async Task ExchangeAsync()
    {
        var isAll = isAllDue;
        isAllDue = false;
        var logs = due.ToHashSet();
        due.Clear();
        if (isAll)
        {
            if (Person is null or { Role: "nobody" })
            {
                Person = await shop.PersonAsync().ConfigureAwait(true);
                await RememberPersonAsync().ConfigureAwait(true);
            }
            var jobs = await shop.JobsAsync().ConfigureAwait(true);
            logs.UnionWith(shelf.Logs.Where(log => shelf.UnsentOf(log) > 0));
            logs.UnionWith(
                jobs.Where(job => job.Receipt != shelf.CursorOf(job.Log).Receipt)
                    .Select(job => job.Log)
            );
            // One at least, to learn which life of the server's store this is.
            if (logs.Count == 0 && shelf.Logs is [var any, ..])
            {
                logs.Add(any);
            }
        }
        var epoch = Guid.Empty;
        var refused = new Dictionary<LogId, Exception>();
        foreach (var log in logs.OrderByDescending(shelf.UnsentOf))
        {
            epoch = await ExchangeAsync(log, refused).ConfigureAwait(true) ?? epoch;
        }
        // After the server was restored from a backup it may lack what it has confirmed.
        if (epoch != Guid.Empty)
        {
            foreach (
                var log in shelf
                    .Logs.Where(log => shelf.MetOf(log) != epoch && !refused.ContainsKey(log))
                    .ToList()
            )
            {
                await ExchangeAsync(log, refused).ConfigureAwait(true);
            }
        }
        await shelf.NoteContactAsync().ConfigureAwait(true);
        // The server is there, whatever it has against one log: of the others it tells at once.
        ListenIfAwake();
        if (refused.Count > 0)
        {
            // Told, and tried again later, after all the others have had their turn.
            ExceptionDispatchInfo.Throw(refused.Values.First());
        }
    }

    private void ListenIfAwake()
    {
        if (!isHeard && signals.IsAwake)
        {
            isHeard = true;
            listenedAt = clock.GetUtcNow();
            signals.Listen();
        }
    }

    /// <summary>Exchanges one log; what is the matter with it alone must not keep the others waiting.</summary>
    /// <returns>The life of the server's store, or null when this log could not be exchanged.</returns>
    private async Task<Guid?> ExchangeAsync(LogId log, Dictionary<LogId, Exception> refused)
    {
        try
        {
            return await ExchangeAsync(log).ConfigureAwait(true);
        }
        catch (Exception e)
            when (e
                    is KeepException
                        or ShopException
                        {
                            Fault: ShopFault.Refused
                                or ShopFault.BadEntry
                                or ShopFault.Erased
                                or ShopFault.NotThere,
                            // Who asks to be left alone asks for all.
                            RetryAfter: null
                        }
            )
        {
            refused[log] = e;
            return null;
        }
    }

    /// <summary>Fetches what is new of a log, then sends what is not confirmed.</summary>
    /// <returns>The life of the server's store.</returns>
    private async Task<Guid> ExchangeAsync(LogId log)
    {
        while (true)
        {
            PullPage page;
            do
            {
                var fetched = await shop.PullAsync(log, shelf.CursorOf(log)).ConfigureAwait(true);
                await shelf.TakeAsync(log, fetched).ConfigureAwait(true);
                page = fetched.Page;
            } while (page.HasMore && page.Last > page.After);
            var isSameLife = true;
            while (
                isSameLife
                && await shelf.BatchAsync(log).ConfigureAwait(true) is { Length: > 0 } batch
            )
            {
                var answers = await SendAsync(log, batch).ConfigureAwait(true);
                await shelf.TakeAsync(log, answers).ConfigureAwait(true);
                // Restored while we sent: begin again.
                isSameLife = answers.Epoch == page.Epoch;
            }
            if (isSameLife)
            {
                await SendPhotosAsync(log).ConfigureAwait(true);
                return page.Epoch;
            }
        }
    }

    /// <summary>After the entries, for those are what the others wait for.</summary>
    private async Task SendPhotosAsync(LogId log)
    {
        try
        {
            await Photos.SendAsync(log).ConfigureAwait(true);
        }
        catch (ShopException e)
            when (e is { Fault: ShopFault.Refused, RetryAfter: null }
                && shelf.UnsentPhotosOf(log) == 0
            )
        {
            // Who may not see personal data has nothing to send either.
        }
    }

    private async Task<AnswerPage> SendAsync(
        LogId log,
        System.Collections.Immutable.ImmutableArray<Entry> batch
    )
    {
        try
        {
            return await shop.AppendAsync(log, batch).ConfigureAwait(true);
        }
        catch (ShopException e) when (e.Fault == ShopFault.BadEntry)
        {
            // One of them holds up all: send the first alone, to find out which.
            var first = batch[0];
            return batch.Length == 1
                ? new(
                    shelf.MetOf(log),
                    [new(first.Id, first.Hash, AnswerStatus.Refused, e.Message)]
                )
                : await SendAsync(log, batch[..1]).ConfigureAwait(true);
        }
    }

    private async Task RememberPersonAsync()
    {
        if (
            Person?.Account?.ToString() is { } account
            && account != shelf.Remembered(Setting.Account)
        )
        {
            await shelf.SetAsync(Setting.Account, account).ConfigureAwait(true);
        }
    }

    private void OnGrown(string data)
    {
        GrownShape? grown;
        try
        {
            grown = JsonSerializer.Deserialize(data, ShopJson.Default.GrownShape);
        }
        catch (JsonException)
        {
            grown = null;
        }
        if (grown is null)
        {
            TryNow();
            return;
        }
        var log = new LogId(grown.Job);
        if (shelf.CursorOf(log) != new PullCursor(grown.Epoch, grown.Receipt))
        {
            due.Add(log);
            woken.TrySetResult();
        }
    }

    private async Task WaitAsync()
    {
        var wait = WaitAfter(failures, asked, Random.Shared.NextDouble());
        if (failures == 0)
        {
            // Nothing to do until something happens.
            await Task.WhenAny(woken.Task, broken.Task).ConfigureAwait(true);
            if (!woken.Task.IsCompleted)
            {
                await PauseAsync(WaitAfter(streamFailures - 1, null, Random.Shared.NextDouble()))
                    .ConfigureAwait(true);
            }
            broken = new();
            woken = new();
            await Task.Delay(Burst, clock).ConfigureAwait(true);
            woken = new();
            return;
        }
        NextTry = clock.GetUtcNow() + wait;
        Changed?.Invoke();
        await PauseAsync(wait).ConfigureAwait(true);
        broken = new();
        woken = new();
    }

    /// <summary>Waits so long, or until something is to be done at once.</summary>
    private async Task PauseAsync(TimeSpan wait)
    {
        using var enough = new CancellationTokenSource();
        await Task.WhenAny(woken.Task, Task.Delay(wait, clock, enough.Token)).ConfigureAwait(true);
        await enough.CancelAsync().ConfigureAwait(true);
    }

    /// <summary>How long to leave the server alone.</summary>
    /// <param name="failures">How many tries have failed one after the other.</param>
    /// <param name="asked">How long it asked for, if it did.</param>
    /// <param name="chance">0 to 1: devices of a shop come back one after the other.</param>
    internal static TimeSpan WaitAfter(int failures, TimeSpan? asked, double chance)
    {
        var wait = FirstWait * Math.Pow(2, Math.Clamp(failures - 1, 0, 10));
        wait = (wait < LongestWait ? wait : LongestWait) * (0.75 + (chance / 2));
        return asked > wait ? asked.Value : wait;
    }
}
