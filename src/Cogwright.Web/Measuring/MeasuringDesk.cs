using Cogwright.Web.Bikes;

namespace Cogwright.Web.Measuring;

/// <summary>
/// The rounds at the bench, by bike. Each is kept on the device as it changes, so that an interruption, another page or a
/// reload loses no reading.
/// </summary>
/// <param name="shelf">Where they are kept.</param>
public sealed class MeasuringDesk(IBikeShelf shelf)
{
    private readonly Dictionary<string, MeasuringRound> rounds = [];
    private readonly Dictionary<string, string> kept = [];

    /// <summary>What is still being written; ends when the device holds every round as it is.</summary>
    public Task Kept { get; private set; } = Task.CompletedTask;

    /// <summary>Whether the device holds every round as it is.</summary>
    public bool IsKept => Kept.IsCompleted;

    /// <summary>The round of a bike; a changed one is written to the device, see <see cref="Kept"/>.</summary>
    public MeasuringRound this[string bikeId]
    {
        get => rounds.GetValueOrDefault(bikeId) ?? new MeasuringRound();
        set
        {
            rounds[bikeId] = value;
            Keep(bikeId, value.ToDraft().Write());
        }
    }

    /// <summary>Whether the round of a bike was fetched.</summary>
    public bool IsOpen(string bikeId) => rounds.ContainsKey(bikeId);

    /// <summary>Fetches the round of a bike from the device, once.</summary>
    public async Task OpenAsync(string bikeId)
    {
        if (IsOpen(bikeId))
        {
            return;
        }
        var text = await shelf.DraftAsync(bikeId).ConfigureAwait(true) ?? "";
        if (!IsOpen(bikeId))
        {
            kept[bikeId] = text;
            rounds[bikeId] = RoundDraft.Read(text) is { } draft
                ? MeasuringRound.From(draft)
                : new MeasuringRound();
        }
    }

    /// <summary>
    /// Lets the round of a demo bike go along with the bike of one's own that was made from it, wherever that was done; what
    /// that one has itself stays.
    /// </summary>
    /// <param name="fromId">The demo bike.</param>
    /// <param name="toId">The bike that was made from it.</param>
    public async Task FollowAsync(string fromId, string toId)
    {
        if (fromId == toId || !fromId.StartsWith(DemoWorkshop.IdPrefix, StringComparison.Ordinal))
        {
            return;
        }
        await OpenAsync(fromId).ConfigureAwait(true);
        await OpenAsync(toId).ConfigureAwait(true);
        if (!rounds[fromId].IsBlank && rounds[toId].IsBlank)
        {
            Move(fromId, toId);
        }
    }

    /// <summary>The round goes along when a bike gets an id of its own.</summary>
    public void Move(string fromId, string toId)
    {
        if (rounds.Remove(fromId, out var round))
        {
            this[toId] = round;
            Keep(fromId, "");
        }
    }

    private void Keep(string bikeId, string text)
    {
        if (kept.GetValueOrDefault(bikeId) == text)
        {
            return;
        }
        kept[bikeId] = text;
        Kept = KeepAfter(Kept);

        async Task KeepAfter(Task before)
        {
            // One that could not be kept must not take the next one with it; the device's notice tells of it.
            await before.ConfigureAwait(
                ConfigureAwaitOptions.SuppressThrowing
                    | ConfigureAwaitOptions.ContinueOnCapturedContext
            );
            // Only the newest is worth writing.
            if (kept[bikeId] == text)
            {
                await shelf.KeepDraftAsync(bikeId, text).ConfigureAwait(true);
            }
        }
    }
}
