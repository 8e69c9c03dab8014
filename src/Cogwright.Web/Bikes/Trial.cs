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

    /// <summary>
    /// What of it can still be tried when the spec has changed meanwhile: what stood on a figure that is another one now is
    /// dropped, so that nothing is tried on parts that are not there.
    /// </summary>
    /// <param name="before">The bike on which it was tried.</param>
    /// <param name="after">The bike as it is now.</param>
    internal Trial After(DrivetrainSpec before, DrivetrainSpec after)
    {
        var sameRear = before.RearDerailleur == after.RearDerailleur;
        var sameRings = before.Rings.Select(Teeth).SequenceEqual(after.Rings.Select(Teeth));
        var sameCogs = before.Cogs.Teeth.AsSpan().SequenceEqual(after.Cogs.Teeth.AsSpan());
        return new()
        {
            Pitches = before.Chain == after.Chain ? Pitches : null,
            BodyAngleRad = sameRear ? BodyAngleRad : null,
            TravelMm =
                after.Frame.Suspension is { } suspension
                && suspension.TravelMeans == before.Frame.Suspension?.TravelMeans
                && TravelMm <= suspension.TravelMm
                    ? TravelMm
                    : null,
            Tilt = after is { Hanger: not null, RearDerailleur.Coaxial: null } ? Tilt : null,
            OffsetSteps =
                sameRear && before.Shifting?.OffsetStepMm == after.Shifting?.OffsetStepMm
                    ? OffsetSteps
                    : 0,
            Rings = sameRings ? Rings : default,
            Cogs = sameCogs ? Cogs : default,
        };

        static int Teeth(Ring ring) => ring.Teeth;
    }

    /// <summary>A gear of a spec by the teeth that its ring and its cog have in this trial.</summary>
    internal Gear Named(Gear gear, DrivetrainSpec spec)
    {
        var cog = spec.Cogs.Teeth.IndexOf(gear.CogTeeth);
        return new(
            RingTeeth(gear.RingTeeth, spec),
            Cogs.IsDefault || cog < 0 ? gear.CogTeeth : Cogs[cog]
        );
    }

    private int RingTeeth(int teeth, DrivetrainSpec spec)
    {
        for (var i = 0; !Rings.IsDefault && i < spec.Rings.Length; i++)
        {
            if (spec.Rings[i].Teeth == teeth)
            {
                return Rings[i];
            }
        }
        return teeth;
    }

    /// <summary>A spec with what is tried that the spec itself can say.</summary>
    internal DrivetrainSpec On(DrivetrainSpec spec)
    {
        if (Pitches is { } pitches)
        {
            spec = spec with { Chain = spec.Chain with { Pitches = pitches } };
        }
        if (
            OffsetSteps != 0
            && spec is { RearDerailleur: { } rear, Shifting: { OffsetStepMm: { } step } shifting }
        )
        {
            // The pulley is wanted that much beside its cog, and every programmed position goes there with it.
            var movedMm = OffsetSteps * step;
            spec = spec with
            {
                RearDerailleur = rear with { IndexOffsetMm = rear.IndexOffsetMm + movedMm },
                Shifting = shifting with
                {
                    PositionsMm = [.. shifting.PositionsMm.Select(mm => mm + movedMm)],
                },
            };
        }
        return Rings.IsDefault && Cogs.IsDefault ? spec : WithTeeth(spec);
    }

    private DrivetrainSpec WithTeeth(DrivetrainSpec spec)
    {
        var cogs = Cogs.IsDefault ? spec.Cogs.Teeth : Cogs;
        return spec with
        {
            Rings = [.. spec.Rings.Select(ring => WithTeeth(ring, RingTeeth(ring.Teeth, spec)))],
            Cogs = spec.Cogs with
            {
                Teeth = cogs,
                TipDiametersMm =
                [
                    .. spec.Cogs.TipDiametersMm.Select(
                        (mm, i) => i < cogs.Length && cogs[i] == spec.Cogs.Teeth[i] ? mm : null
                    ),
                ],
            },
            // What names a ring or a cog by its teeth means the same place on the bike.
            GearsNotUsed = [.. spec.GearsNotUsed.Select(gear => Named(gear, spec))],
            RearDerailleur = spec.RearDerailleur
                is { Coaxial: { SetUpRingTeeth: { } setUp } mount } rear
                ? rear with
                {
                    Coaxial = mount with { SetUpRingTeeth = RingTeeth(setUp, spec) },
                }
                : spec.RearDerailleur,
            FrontDerailleur = spec.FrontDerailleur is { } front
                ? front with
                {
                    Positions =
                    [
                        .. front.Positions.Select(at =>
                            at with
                            {
                                RingTeeth = RingTeeth(at.RingTeeth, spec),
                            }
                        ),
                    ],
                    Trims =
                    [
                        .. front.Trims.Select(trim =>
                            trim with
                            {
                                RingTeeth = RingTeeth(trim.RingTeeth, spec),
                            }
                        ),
                    ],
                }
                : null,
        };
    }

    // What was measured over the tips of another ring says nothing of this one.
    private static Ring WithTeeth(Ring ring, int teeth) =>
        ring.Teeth == teeth ? ring : ring with { Teeth = teeth, TipDiameterMm = null };
}
