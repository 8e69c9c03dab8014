using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Web.Bikes;

/// <summary>What somebody tries without changing the spec. Immutable.</summary>
public sealed record Trial
{
    /// <summary>Nothing is tried.</summary>
    public static Trial None { get; } = new();

    /// <summary>Chain length (pitches), or null for the spec's or the recommended one.</summary>
    public int? Pitches { get; init; }

    /// <summary>Body angle (rad), with a sprung mount the spec's own plus the turn of the spring's anchor; null for the spec's.</summary>
    public double? BodyAngleRad { get; init; }

    /// <summary>Travel of the rear end (mm), or null for sag.</summary>
    public double? TravelMm { get; init; }

    /// <summary>The hanger's tilt, or null for a straight one.</summary>
    public HangerTilt? Tilt { get; init; }

    /// <summary>Steps of the motor's offset (outboard positive).</summary>
    public int OffsetSteps { get; init; }

    /// <summary>Teeth of every ring in the spec's order, or default for the spec's.</summary>
    public ImmutableArray<int> Rings { get; init; }

    /// <summary>Teeth of every cog, smallest first, or default for the spec's.</summary>
    public ImmutableArray<int> Cogs { get; init; }

    /// <summary>A spec with what is tried that the spec itself can say.</summary>
    internal DrivetrainSpec On(DrivetrainSpec spec)
    {
        if (Pitches is { } pitches)
        {
            spec = spec with { Chain = spec.Chain with { Pitches = pitches } };
        }
        if (
            OffsetSteps != 0
            && spec is { RearDerailleur: { } rear, Shifting.OffsetStepMm: { } step }
        )
        {
            spec = spec with
            {
                RearDerailleur = rear with
                {
                    IndexOffsetMm = rear.IndexOffsetMm + (OffsetSteps * step),
                },
            };
        }
        if (!Rings.IsDefault)
        {
            spec = spec with
            {
                Rings = [.. spec.Rings.Select((ring, i) => WithTeeth(ring, Rings[i]))],
            };
        }
        if (!Cogs.IsDefault)
        {
            var old = spec.Cogs;
            spec = spec with
            {
                Cogs = old with
                {
                    Teeth = Cogs,
                    TipDiametersMm =
                    [
                        .. old.TipDiametersMm.Select(
                            (mm, i) => i < Cogs.Length && Cogs[i] == old.Teeth[i] ? mm : null
                        ),
                    ],
                },
            };
        }
        return spec;
    }

    // What was measured over the tips of another ring says nothing of this one.
    private static Ring WithTeeth(Ring ring, int teeth) =>
        ring.Teeth == teeth ? ring : ring with { Teeth = teeth, TipDiameterMm = null };
}
