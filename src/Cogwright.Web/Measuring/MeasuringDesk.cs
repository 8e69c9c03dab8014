namespace Cogwright.Web.Measuring;

/// <summary>The rounds at the bench of this sitting, by bike, so that an interruption or another page loses nothing.</summary>
public sealed class MeasuringDesk
{
    private readonly Dictionary<string, MeasuringRound> rounds = [];

    /// <summary>The round of a bike.</summary>
    public MeasuringRound this[string bikeId]
    {
        get => rounds.GetValueOrDefault(bikeId) ?? new MeasuringRound();
        set => rounds[bikeId] = value;
    }

    /// <summary>The round goes along when a bike gets an id of its own.</summary>
    public void Move(string fromId, string toId)
    {
        if (rounds.Remove(fromId, out var round))
        {
            rounds[toId] = round;
        }
    }
}
