using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Drivetrain;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Web.Bikes;

/// <summary>What can be tried on a bike, in the order in which a mechanic reaches for it.</summary>
public static class Knobs
{
    private const double UsualTurns = 3;
    private const double MostBodyRad = 10 * Math.PI / 180;
    private const int MostPitches = 4;
    private const int UsualSteps = 8;
    private const double MostTiltMm = 12;
    private const int TeethEitherWay = 8;

    /// <summary>The knobs of a bike.</summary>
    /// <param name="bike">The bike as its spec says.</param>
    /// <param name="gear">The gear looked at, by the spec's teeth: its ring and its cog can be tried in other sizes.</param>
    public static ImmutableArray<Knob> Of(ComputedBike bike, Gear gear)
    {
        ArgumentNullException.ThrowIfNull(bike);
        var knobs = ImmutableArray.CreateBuilder<Knob>();
        if (bike.Spec.RearDerailleur is { } rear)
        {
            knobs.Add(Body(bike, rear));
        }
        knobs.Add(Chain(bike));
        if (bike.Spec is { RearDerailleur: not null, Shifting.OffsetStepMm: { } step })
        {
            knobs.Add(Offset(bike.Spec.Shifting, step));
        }
        if (bike.Spec.Frame.Suspension is { } suspension)
        {
            knobs.Add(Travel(suspension, bike.Table.TravelMm));
        }
        if (bike.Spec is { RearDerailleur.Coaxial: null, Hanger: { } hanger })
        {
            var radius = hanger.GaugeRadiusMm ?? QuantityCatalogue.UsualGaugeRadiusMm;
            knobs.Add(Lean(radius));
            knobs.Add(Toe(radius));
        }
        if (bike.Table.Find(gear) is { } at)
        {
            knobs.Add(RingTeeth(bike.Spec, at.RingIndex));
            // The cog on which a derailleur on the axle is set cannot be another one without setting it anew.
            if (bike.Spec.RearDerailleur?.Coaxial?.SetUpCogTeeth != gear.CogTeeth)
            {
                knobs.Add(CogTeeth(bike.Spec, at.CogIndex));
            }
        }
        return knobs.ToImmutable();
    }

    /// <summary>Body angle per clockwise turn of the screw (rad), or null when the bike has no such screw or its data do not say.</summary>
    private static double? RadPerTurn(ComputedBike bike) =>
        GapCorrector.RadPerTurn(bike.Spec, bike.Table.Pitches, bike.GapGear);

    private static Knob Body(ComputedBike bike, RearDerailleur rear)
    {
        var own = bike.Table.BodyAngleRad;
        if (RadPerTurn(bike) is { } rate && rear.BodyAngleScrew is { } screw)
        {
            return new()
            {
                Key = "screw",
                Label = Capital(screw.Name),
                // Never out of its thread: as far as a correction may turn it.
                Least = -(
                    ScrewTravel.LeftTurns(screw, clockwise: false)
                    ?? Whole(UsualTurns, screw.LeastTurn)
                ),
                Most =
                    ScrewTravel.LeftTurns(screw, clockwise: true)
                    ?? Whole(UsualTurns, screw.LeastTurn),
                Step = screw.LeastTurn,
                AsSpec = 0,
                Read = trial => ((trial.BodyAngleRad ?? own) - own) / rate,
                Write = (trial, turns) =>
                    trial with
                    {
                        BodyAngleRad = turns == 0 ? null : own + (turns * rate),
                    },
                Say = turns =>
                    turns == 0
                        ? Texts.Get("mech.asSpec")
                        : Texts.Get(
                            turns > 0 ? "mech.turnsIn" : "mech.turnsOut",
                            TurnAmount.Of(turns),
                            Math.Abs(turns) > 1 ? "s" : ""
                        ),
            };
        }
        return new()
        {
            Key = "body",
            Label = Texts.Get("mech.body"),
            Least = -MostBodyRad * 180 / Math.PI,
            Most = MostBodyRad * 180 / Math.PI,
            Step = 0.5,
            AsSpec = 0,
            Read = trial => ((trial.BodyAngleRad ?? own) - own) * 180 / Math.PI,
            Write = (trial, degrees) =>
                trial with
                {
                    BodyAngleRad = degrees == 0 ? null : own + (degrees * Math.PI / 180),
                },
            Say = degrees =>
                degrees == 0
                    ? Texts.Get("mech.asSpec")
                    : Texts.Get(
                        degrees > 0 ? "mech.bodyForward" : "mech.bodyRearward",
                        Number(Math.Abs(degrees))
                    ),
        };
    }

    private static Knob Chain(ComputedBike bike)
    {
        var own = bike.Table.Pitches;
        return new()
        {
            Key = "chain",
            Label = Texts.Get("mech.chain"),
            Least = own - MostPitches,
            Most = own + MostPitches,
            // A chain without a cranked half link has an even number of pitches.
            Step = bike.Spec.Chain.HalfLink ? 1 : 2,
            AsSpec = own,
            Read = trial => trial.Pitches ?? own,
            Write = (trial, pitches) =>
                trial with
                {
                    Pitches = (int)pitches == own ? null : (int)pitches,
                },
            Say = pitches =>
                pitches == own
                    ? Texts.Get("mech.pitches", (int)pitches)
                    : Texts.Get(
                        pitches > own ? "mech.pitchesMore" : "mech.pitchesFewer",
                        (int)pitches,
                        (int)Math.Abs(pitches - own)
                    ),
        };
    }

    private static Knob Offset(Shifting shifting, double stepMm) =>
        new()
        {
            Key = "offset",
            Label = Texts.Get("mech.offset"),
            Least = -(shifting.StepsLeftInboard ?? UsualSteps),
            Most = shifting.StepsLeftOutboard ?? UsualSteps,
            Step = 1,
            AsSpec = 0,
            Read = trial => trial.OffsetSteps,
            Write = (trial, steps) => trial with { OffsetSteps = (int)steps },
            Say = steps =>
                steps == 0
                    ? Texts.Get("mech.asSpec")
                    : Texts.Get(
                        steps > 0 ? "mech.stepsOutboard" : "mech.stepsInboard",
                        (int)Math.Abs(steps),
                        Math.Abs(steps) > 1 ? "s" : "",
                        Number(Math.Abs(steps * stepMm))
                    ),
            MovesSideways = true,
        };

    private static Knob Travel(Suspension suspension, double ownMm) =>
        new()
        {
            Key = "travel",
            Label = Texts.Get(
                suspension.TravelMeans == TravelMeaning.ShockStroke ? "mech.stroke" : "mech.travel"
            ),
            Least = 0,
            Most = suspension.TravelMm,
            Step = suspension.TravelMm > 80 ? 5 : 2,
            AsSpec = ownMm,
            Read = trial => trial.TravelMm ?? ownMm,
            Write = (trial, mm) => trial with { TravelMm = mm == ownMm ? null : mm },
            Say = mm =>
                Texts.Get(
                    mm == ownMm ? "mech.travelSetUp" : "mech.travelAt",
                    Number(mm),
                    Number(suspension.TravelMm)
                ),
        };

    private static Knob Lean(double gaugeMm) =>
        new()
        {
            Key = "lean",
            Label = Texts.Get("mech.lean"),
            Least = -MostTiltMm,
            Most = MostTiltMm,
            Step = 0.5,
            AsSpec = 0,
            Read = trial => (trial.Tilt?.LeanRad ?? 0) * 2 * gaugeMm,
            Write = (trial, mm) =>
                WithTilt(trial, new(mm / (2 * gaugeMm), trial.Tilt?.ToeRad ?? 0)),
            Say = mm => SayTilt(mm, "mech.leanInboard", "mech.leanOutboard"),
            MovesSideways = true,
        };

    private static Knob Toe(double gaugeMm) =>
        new()
        {
            Key = "toe",
            Label = Texts.Get("mech.toe"),
            Least = -MostTiltMm,
            Most = MostTiltMm,
            Step = 0.5,
            AsSpec = 0,
            Read = trial => (trial.Tilt?.ToeRad ?? 0) * 2 * gaugeMm,
            Write = (trial, mm) =>
                WithTilt(trial, new(trial.Tilt?.LeanRad ?? 0, mm / (2 * gaugeMm))),
            Say = mm => SayTilt(mm, "mech.toeInboard", "mech.toeOutboard"),
            MovesSideways = true,
        };

    private static Trial WithTilt(Trial trial, HangerTilt tilt) =>
        trial with
        {
            Tilt = tilt == default ? null : tilt,
        };

    private static string SayTilt(double mm, string positive, string negative) =>
        mm == 0
            ? Texts.Get("mech.straight")
            : Texts.Get(mm > 0 ? positive : negative, Number(Math.Abs(mm)));

    /// <summary>The teeth of the ring with that index.</summary>
    internal static Knob RingTeeth(DrivetrainSpec spec, int index)
    {
        ImmutableArray<int> own = [.. spec.Rings.Select(ring => ring.Teeth)];
        // Two rings of one size could not be told apart.
        var (least, most) = (
            own.Where(teeth => teeth < own[index]).DefaultIfEmpty(0).Max() + 1,
            own.Where(teeth => teeth > own[index]).DefaultIfEmpty(1000).Min() - 1
        );
        return Teeth(
            "ring",
            own,
            index,
            least,
            most,
            trial => trial.Rings,
            (trial, teeth) => trial with { Rings = teeth }
        );
    }

    /// <summary>The teeth of the cog with that index.</summary>
    internal static Knob CogTeeth(DrivetrainSpec spec, int index)
    {
        var own = spec.Cogs.Teeth;
        return Teeth(
            "cog",
            own,
            index,
            index == 0 ? 9 : own[index - 1] + 1,
            index == own.Length - 1 ? 1000 : own[index + 1] - 1,
            trial => trial.Cogs,
            (trial, teeth) => trial with { Cogs = teeth }
        );
    }

    private static Knob Teeth(
        string key,
        ImmutableArray<int> own,
        int index,
        int least,
        int most,
        Func<Trial, ImmutableArray<int>> read,
        Func<Trial, ImmutableArray<int>, Trial> write
    ) =>
        new()
        {
            Key = key,
            Label = Texts.Get($"mech.{key}Teeth"),
            Least = Math.Max(least, own[index] - TeethEitherWay),
            Most = Math.Min(most, own[index] + TeethEitherWay),
            Step = 1,
            AsSpec = own[index],
            Read = trial => (read(trial) is { IsDefault: false } teeth ? teeth : own)[index],
            Write = (trial, value) =>
            {
                var teeth = (read(trial) is { IsDefault: false } now ? now : own).SetItem(
                    index,
                    (int)value
                );
                return write(trial, teeth.AsSpan().SequenceEqual(own.AsSpan()) ? default : teeth);
            },
            Say = value =>
                Texts.Get(
                    value == own[index] ? "mech.teeth" : "mech.teethInPlace",
                    (int)value,
                    own[index]
                ),
            ChangesShape = true,
        };

    private static double Whole(double turns, double least) =>
        Math.Floor((turns / least) + 1e-9) * least;

    private static string Capital(string name) =>
        name.Length == 0 ? name : char.ToUpperInvariant(name[0]) + name[1..];

    private static string Number(double value) =>
        value.ToString("0.##", CultureInfo.InvariantCulture);
}
