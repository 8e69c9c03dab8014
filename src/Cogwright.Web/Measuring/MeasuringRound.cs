using System.Collections.Immutable;
using Cogwright.Drivetrain.Bench;

namespace Cogwright.Web.Measuring;

/// <summary>What became of a reading that arrived.</summary>
public enum Arrival
{
    /// <summary>It belongs to the distance that was asked for.</summary>
    Taken,

    /// <summary>It is asked about: see <see cref="MeasuringRound.Doubt"/>.</summary>
    Doubted,

    /// <summary>Nobody knows what it belongs to yet: it is kept under <see cref="MeasuringRound.Strays"/>.</summary>
    Stray,

    /// <summary>It is no length.</summary>
    NoLength,
}

/// <summary>
/// One round at the bench: which distance is asked for, what was read in this sitting, what waits for an answer. Immutable.
/// </summary>
public sealed record MeasuringRound
{
    /// <summary>The distances, in the order of work.</summary>
    public ImmutableArray<BenchPlace> Places { get; private init; } = [];

    /// <summary>Which of them is asked for.</summary>
    public int At { get; private init; }

    /// <summary>The readings of this sitting (mm).</summary>
    public ImmutableDictionary<BenchPlace, ImmutableArray<double>> Readings { get; private init; } =
        ImmutableDictionary<BenchPlace, ImmutableArray<double>>.Empty;

    /// <summary>Readings that arrived while no field was armed, as they arrived.</summary>
    public ImmutableArray<string> Strays { get; init; } = [];

    /// <summary>The reading that is asked about, or null.</summary>
    public ReadingDoubt? Doubt { get; private init; }

    /// <summary>How often each distance is read before the next one is asked for.</summary>
    public int Repeats { get; init; } = 1;

    /// <summary>Whether a bare number is in inches.</summary>
    public bool InInches { get; init; }

    /// <summary>The distance that is asked for, or null when there is none.</summary>
    public BenchPlace? Place => At < Places.Length ? Places[At] : null;

    /// <summary>The round with the distances of a bike; what was read stays.</summary>
    public MeasuringRound For(ImmutableArray<BenchPlace> places) =>
        places.SequenceEqual(Places)
            ? this
            : this with
            {
                Places = places,
                At = Place is { } now && places.IndexOf(now) is >= 0 and var at ? at : 0,
            };

    /// <summary>Takes a reading that arrived.</summary>
    /// <param name="text">As typed or sent.</param>
    /// <param name="place">The distance that the armed field stood for when the reading began, or null when none was armed.</param>
    /// <param name="expectedMm">What the spec lets expect there (mm), or null.</param>
    /// <returns>The round, and what became of the reading; when it is taken, its place and value.</returns>
    public (MeasuringRound Round, Arrival Arrival, double Mm) Receive(
        string text,
        BenchPlace? place,
        double? expectedMm
    )
    {
        ArgumentNullException.ThrowIfNull(text);
        if (Files.FieldTyping.LengthMm(text, InInches) is not { } mm)
        {
            return (this, Arrival.NoLength, 0);
        }
        if (place is null || place != Place)
        {
            return (this with { Strays = Strays.Add(text.Trim()) }, Arrival.Stray, mm);
        }
        return ReadingDoubt.About(place.Value, mm, expectedMm) is { } doubt
            ? (this with { Doubt = doubt }, Arrival.Doubted, mm)
            : (Take(place.Value, mm), Arrival.Taken, mm);
    }

    /// <summary>The round with a reading of a distance; asks for the next one when it was read often enough.</summary>
    public MeasuringRound Take(BenchPlace place, double mm)
    {
        var all = Of(place).Add(mm);
        var taken = this with { Readings = Readings.SetItem(place, all), Doubt = null };
        return place == Place && all.Length % Repeats == 0 ? taken.Move(1) : taken;
    }

    /// <summary>The round that has forgotten the readings of a distance.</summary>
    public MeasuringRound Forget(BenchPlace place) =>
        this with
        {
            Readings = Readings.Remove(place),
        };

    /// <summary>The round that starts a distance from a value that the sheet holds already (mm).</summary>
    public MeasuringRound Know(BenchPlace place, double? heldMm)
    {
        // What was read in this sitting counts only while the sheet still says so: an undo takes it back.
        var held = heldMm is { } mm ? Math.Round(mm, 3) : (double?)null;
        var read = Of(place);
        var said = read.IsEmpty ? (double?)null : Math.Round(read.Average(), 3);
        return said == held ? this
            : held is null ? Forget(place)
            : this with { Readings = Readings.SetItem(place, [held.Value]) };
    }

    /// <summary>The readings of a distance in this sitting (mm).</summary>
    public ImmutableArray<double> Of(BenchPlace place) =>
        Readings.TryGetValue(place, out var readings) ? readings : [];

    /// <summary>The round without the doubt: the reading is dropped and the same distance asked for again.</summary>
    public MeasuringRound Drop() => this with { Doubt = null };

    /// <summary>The round without one of the strays.</summary>
    public MeasuringRound DropStray(int index) => this with { Strays = Strays.RemoveAt(index) };

    /// <summary>The round with the distance so many places further; a doubt is dropped with its distance.</summary>
    public MeasuringRound Move(int by) =>
        this with
        {
            At = Math.Clamp(At + by, 0, Places.Length),
            Doubt = null,
        };

    /// <summary>The round that asks for a certain distance.</summary>
    public MeasuringRound GoTo(BenchPlace place) =>
        Places.IndexOf(place) is >= 0 and var at ? this with { At = at, Doubt = null } : this;
}
