using System.Text.Json;
using System.Text.Json.Serialization;
using Cogwright.Drivetrain.Bench;

namespace Cogwright.Web.Measuring;

/// <summary>
/// A round at the bench as the device keeps it: every single reading, what arrived while nothing was armed, and what waits for
/// an answer. The spec itself, which is in the bike's log, holds only the mean of each distance. Immutable.
/// </summary>
public sealed record RoundDraft
{
    /// <summary>The distance asked for, or null behind the last one.</summary>
    public DraftPlace? At { get; init; }

    /// <summary>How often each distance is read.</summary>
    public int Repeats { get; init; } = 1;

    /// <summary>Whether a bare number is in inches.</summary>
    public bool InInches { get; init; }

    /// <summary>See <see cref="MeasuringRound.Strays"/>.</summary>
    public string[] Strays { get; init; } = [];

    /// <summary>The readings of each distance (mm).</summary>
    public DraftReadings[] Readings { get; init; } = [];

    /// <summary>See <see cref="MeasuringRound.Waiting"/>.</summary>
    public DraftPlace[] Waiting { get; init; } = [];

    /// <summary>See <see cref="MeasuringRound.Was"/>; none where the spec held nothing.</summary>
    public DraftReadings[] Was { get; init; } = [];

    /// <summary>See <see cref="MeasuringRound.Anew"/>.</summary>
    public DraftPlace[] Anew { get; init; } = [];

    /// <summary>See <see cref="MeasuringRound.Doubts"/>.</summary>
    public DraftDoubt[] Doubts { get; init; } = [];

    /// <summary>The draft as text.</summary>
    public string Write() => JsonSerializer.Serialize(this, DraftJson.Default.RoundDraft);

    /// <summary>The draft that a text holds, or null when it holds none.</summary>
    public static RoundDraft? Read(string? text)
    {
        if (string.IsNullOrEmpty(text))
        {
            return null;
        }
        try
        {
            return JsonSerializer.Deserialize(text, DraftJson.Default.RoundDraft);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}

/// <summary>A distance of the bench by its name in the files. Immutable.</summary>
/// <param name="Name">Its name under <c>measured</c>.</param>
/// <param name="Cog">Teeth of the cog, or 0.</param>
/// <param name="Ring">Teeth of the ring, or 0.</param>
/// <param name="Turns">Turns of the body-angle screw (clockwise positive), or 0.</param>
public sealed record DraftPlace(string Name, int Cog = 0, int Ring = 0, double Turns = 0)
{
    /// <summary>The distance, or null when this version does not know it.</summary>
    internal BenchPlace? Place
    {
        get
        {
            foreach (var distance in Enum.GetValues<BenchDistance>())
            {
                if (BenchNames.Path(distance) == Name)
                {
                    return new BenchPlace(distance, Cog, Ring, Turns);
                }
            }
            return null;
        }
    }

    internal static DraftPlace Of(BenchPlace place) =>
        new(BenchNames.Path(place.Distance), place.CogTeeth, place.RingTeeth, place.Turns);
}

/// <summary>The readings of a distance. Immutable.</summary>
/// <param name="At">The distance.</param>
/// <param name="Mm">What was read (mm).</param>
public sealed record DraftReadings(DraftPlace At, double[] Mm);

/// <summary>A figure that is asked about. Immutable.</summary>
/// <param name="At">What it was read for.</param>
/// <param name="ReadMm">What was read (mm).</param>
/// <param name="ExpectedMm">What the spec let expect (mm), or null.</param>
/// <param name="AsInchesMm">The figure taken as inches (mm), or null.</param>
public sealed record DraftDoubt(
    DraftPlace At,
    double ReadMm,
    double? ExpectedMm,
    double? AsInchesMm
);

/// <summary>How drafts are written; made at build time, so that trimming takes nothing away.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull
)]
[JsonSerializable(typeof(RoundDraft))]
internal sealed partial class DraftJson : JsonSerializerContext;
