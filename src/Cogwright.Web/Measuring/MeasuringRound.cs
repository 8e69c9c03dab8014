using System.Collections.Immutable;
using Cogwright.Drivetrain.Bench;
using Cogwright.Files;

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

    /// <summary>Distances whose readings have changed and are not in the spec yet: what the spec says of them is older.</summary>
    public ImmutableHashSet<BenchPlace> Waiting { get; private init; } = [];

    /// <summary>
    /// What the spec held of a distance (mm; null: nothing) when its readings began to wait; a distance that waits and is not
    /// here is from an earlier version, which did not note it.
    /// </summary>
    public ImmutableDictionary<BenchPlace, double?> Was { get; private init; } =
        ImmutableDictionary<BenchPlace, double?>.Empty;

    /// <summary>Distances that are read anew: the next reading takes the place of those before.</summary>
    public ImmutableHashSet<BenchPlace> Anew { get; private init; } = [];

    /// <summary>
    /// Readings that arrived while no field was armed, as they arrived; a bare one that was meant in inches says so.
    /// </summary>
    public ImmutableArray<string> Strays { get; private init; } = [];

    /// <summary>The readings that are asked about; each stays until it is answered, also while another distance is asked for.</summary>
    public ImmutableArray<ReadingDoubt> Doubts { get; private init; } = [];

    /// <summary>The reading of the distance asked for that is asked about first, or null.</summary>
    public ReadingDoubt? Doubt =>
        Place is { } here ? Doubts.FirstOrDefault(doubt => doubt.Place == here) : null;

    /// <summary>How often each distance is read before the next one is asked for.</summary>
    public int Repeats { get; init; } = 1;

    /// <summary>Whether a bare number is in inches.</summary>
    public bool InInches { get; init; }

    /// <summary>Whether nothing was read in it.</summary>
    public bool IsBlank => Readings.IsEmpty && Waiting.IsEmpty && Strays.IsEmpty && Doubts.IsEmpty;

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
        if (FieldTyping.LengthMm(text, InInches) is not { } mm)
        {
            return (this, Arrival.NoLength, 0);
        }
        if (place is null || place != Place)
        {
            var stray = FieldTyping.WithUnit(text, InInches);
            return (this with { Strays = Strays.Add(stray) }, Arrival.Stray, mm);
        }
        return ReadingDoubt.About(place.Value, mm, expectedMm) is { } doubt
            ? (this with { Doubts = Doubts.Add(doubt) }, Arrival.Doubted, mm)
            : (Take(place.Value, mm), Arrival.Taken, mm);
    }

    /// <summary>Gives a stray to a distance, which is asked for then; one that is no length stays a stray.</summary>
    /// <param name="index">Which stray.</param>
    /// <param name="place">The distance.</param>
    /// <param name="expectedMm">What the spec lets expect there (mm), or null.</param>
    /// <returns>As <see cref="Receive"/>.</returns>
    public (MeasuringRound Round, Arrival Arrival, double Mm) PlaceStray(
        int index,
        BenchPlace place,
        double? expectedMm
    )
    {
        // What was heard was kept with its unit: what the field is set to now does not matter.
        var (round, arrival, mm) = (GoTo(place) with { InInches = false }).Receive(
            Strays[index],
            place,
            expectedMm
        );
        return arrival is Arrival.Taken or Arrival.Doubted
            ? (round.DropStray(index) with { InInches = InInches }, arrival, mm)
            : (this, arrival, mm);
    }

    /// <summary>
    /// The round with a reading of a distance; asks for the next one when it was read often enough. What was asked about of
    /// the same distance is answered by it.
    /// </summary>
    public MeasuringRound Take(BenchPlace place, double mm)
    {
        var all = Anew.Contains(place) ? [mm] : Of(place).Add(mm);
        var taken = this with
        {
            Readings = Readings.SetItem(place, all),
            Waiting = Waiting.Add(place),
            Was = WasWith(place),
            Anew = Anew.Remove(place),
            Doubts = Doubts.RemoveAll(doubt => doubt.Place == place),
        };
        return place == Place && all.Length % Repeats == 0 ? taken.Move(1) : taken;
    }

    /// <summary>The round with a figure that was asked about: it is kept as that many mm.</summary>
    public MeasuringRound Answer(ReadingDoubt doubt, double mm)
    {
        ArgumentNullException.ThrowIfNull(doubt);
        var others = Doubts.Remove(doubt);
        return Take(doubt.Place, mm) with { Doubts = others };
    }

    /// <summary>The round that has forgotten the readings of a distance.</summary>
    public MeasuringRound Forget(BenchPlace place) =>
        this with
        {
            Readings = Readings.Remove(place),
            Waiting = Waiting.Add(place),
            Was = WasWith(place),
            Anew = Anew.Remove(place),
        };

    /// <summary>The round that asks for a distance anew: the next reading takes the place of the old ones, which stand until then.</summary>
    public MeasuringRound ReadAgain(BenchPlace place) =>
        GoTo(place) with
        {
            Anew = Anew.Add(place),
        };

    /// <summary>The round once the spec holds some readings of a distance; with others since then it still waits.</summary>
    public MeasuringRound Stored(BenchPlace place, ImmutableArray<double> readingsMm) =>
        Of(place).SequenceEqual(readingsMm)
            ? this with
            {
                Waiting = Waiting.Remove(place),
                Was = Was.Remove(place),
            }
            : this with
            {
                Was = Was.SetItem(place, Mean(readingsMm)),
            };

    /// <summary>
    /// Whether the spec holds something else of a distance by now (mm; null: nothing) than when its readings began to wait, and it
    /// is none of them either: somebody has measured it elsewhere, and must be seen before it is written over.
    /// </summary>
    public bool IsOvertaken(BenchPlace place, double? heldMm)
    {
        var read = Of(place);
        return Waiting.Contains(place)
            && (Was.TryGetValue(place, out var was) ? !IsSame(heldMm, was) : heldMm is not null)
            && !Enumerable
                .Range(read.IsEmpty ? 0 : 1, Math.Max(1, read.Length))
                .Any(count => IsSame(Mean(read[..count]), heldMm));
    }

    /// <summary>The round that lets what the spec holds of a distance stand (mm; null: nothing) in the place of its own readings.</summary>
    public MeasuringRound GiveWay(BenchPlace place, double? heldMm) =>
        (this with { Waiting = Waiting.Remove(place), Was = Was.Remove(place) }).Know(
            place,
            heldMm
        );

    // The spec says what was read in this sitting, or what the sitting began from.
    private ImmutableDictionary<BenchPlace, double?> WasWith(BenchPlace place) =>
        Waiting.Contains(place) ? Was : Was.SetItem(place, Mean(Of(place)));

    // The sheet has three places behind the point, and rounds in its own way.
    private static bool IsSame(double? a, double? b) =>
        a is { } one && b is { } other ? Math.Abs(one - other) < 0.0011 : a is null && b is null;

    // As exactly as the sheet writes it.
    private static double? Rounded(double? mm) => mm is { } value ? Math.Round(value, 3) : null;

    private static double? Mean(ImmutableArray<double> readingsMm) =>
        readingsMm.IsEmpty ? null : Rounded(readingsMm.Average());

    /// <summary>
    /// The round that starts a distance from a value that the sheet holds already (mm). Readings that wait for the sheet are
    /// newer than what it holds.
    /// </summary>
    public MeasuringRound Know(BenchPlace place, double? heldMm)
    {
        if (Waiting.Contains(place))
        {
            return this;
        }
        // What was read in this sitting counts only while the sheet still says so: an undo takes it back.
        var held = Rounded(heldMm);
        return Mean(Of(place)) == held ? this
            : held is null ? this with { Readings = Readings.Remove(place) }
            : this with { Readings = Readings.SetItem(place, [held.Value]) };
    }

    /// <summary>The readings of a distance in this sitting (mm).</summary>
    public ImmutableArray<double> Of(BenchPlace place) =>
        Readings.TryGetValue(place, out var readings) ? readings : [];

    /// <summary>The round without one of the figures asked about: somebody has said that it is dropped.</summary>
    public MeasuringRound Drop(ReadingDoubt doubt) => this with { Doubts = Doubts.Remove(doubt) };

    /// <summary>The round without one of the strays.</summary>
    public MeasuringRound DropStray(int index) => this with { Strays = Strays.RemoveAt(index) };

    /// <summary>The round with the distance so many places further.</summary>
    public MeasuringRound Move(int by) => this with { At = Math.Clamp(At + by, 0, Places.Length) };

    /// <summary>The round that asks for a certain distance.</summary>
    public MeasuringRound GoTo(BenchPlace place) =>
        Places.IndexOf(place) is >= 0 and var at ? this with { At = at } : this;

    /// <summary>The round as the device keeps it, so that a page that was closed loses none of it.</summary>
    public RoundDraft ToDraft() =>
        new()
        {
            At = Place is { } here ? DraftPlace.Of(here) : null,
            Repeats = Repeats,
            InInches = InInches,
            Strays = [.. Strays],
            Readings =
            [
                .. Readings.Select(read => new DraftReadings(
                    DraftPlace.Of(read.Key),
                    [.. read.Value]
                )),
            ],
            Waiting = [.. Waiting.Select(DraftPlace.Of)],
            Was =
            [
                .. Was.Select(was => new DraftReadings(
                    DraftPlace.Of(was.Key),
                    was.Value is { } mm ? [mm] : []
                )),
            ],
            Anew = [.. Anew.Select(DraftPlace.Of)],
            Doubts =
            [
                .. Doubts.Select(doubt => new DraftDoubt(
                    DraftPlace.Of(doubt.Place),
                    doubt.ReadMm,
                    doubt.ExpectedMm,
                    doubt.AsInchesMm
                )),
            ],
        };

    /// <summary>The round that a draft holds; a distance that this version does not know is left out.</summary>
    public static MeasuringRound From(RoundDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        var at = draft.At?.Place;
        return new()
        {
            // The form of the bike follows; until then the distance asked for is all of it.
            Places = at is { } here ? [here] : [],
            Repeats = Math.Max(1, draft.Repeats),
            InInches = draft.InInches,
            Strays = [.. draft.Strays],
            Readings = draft
                .Readings.Where(read => read.At.Place is not null)
                .ToImmutableDictionary(
                    read => read.At.Place!.Value,
                    read => read.Mm.ToImmutableArray()
                ),
            Waiting = [.. Known(draft.Waiting)],
            Was = draft
                .Was.Where(was => was.At.Place is not null)
                .ToImmutableDictionary(
                    was => was.At.Place!.Value,
                    was => was.Mm is [var mm, ..] ? mm : (double?)null
                ),
            Anew = [.. Known(draft.Anew)],
            Doubts =
            [
                .. draft
                    .Doubts.Where(doubt => doubt.At.Place is not null)
                    .Select(doubt => new ReadingDoubt(
                        doubt.At.Place!.Value,
                        doubt.ReadMm,
                        doubt.ExpectedMm,
                        doubt.AsInchesMm
                    )),
            ],
        };

        static IEnumerable<BenchPlace> Known(DraftPlace[] places) =>
            places.Select(place => place.Place).OfType<BenchPlace>();
    }
}
