using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Drivetrain.Bench;
using Cogwright.Files;
using Cogwright.Web.Measuring;

namespace Cogwright.Web.Bikes;

/// <summary>What a trial becomes in the spec. Immutable.</summary>
/// <param name="Sheet">The sheet with it.</param>
/// <param name="Kept">What is written, each as a few words; empty when the spec has no field for any of it.</param>
/// <param name="Left">What stays a trial, each as a few words.</param>
/// <param name="Recheck">What was measured before and does not hold any more: it is taken out, each as a few words.</param>
public sealed record TrialKeeping(
    SpecSheet Sheet,
    IReadOnlyList<string> Kept,
    IReadOnlyList<string> Left,
    IReadOnlyList<string> Recheck
)
{
    /// <summary>Writes what is tried into a sheet, as far as it has fields for it.</summary>
    /// <param name="sheet">The sheet as it is.</param>
    /// <param name="bike">The bike as that sheet says.</param>
    /// <param name="trial">What is tried, in whichever gear.</param>
    public static TrialKeeping Of(SpecSheet sheet, ComputedBike bike, Trial trial)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(bike);
        ArgumentNullException.ThrowIfNull(trial);
        var knobs = Knobs.Of(bike, bike.GapGear);
        var kept = new List<string>();
        var left = new List<string>();
        var after = sheet;
        if (trial.BodyAngleRad is not null)
        {
            var knob = Find("screw") ?? Find("body")!;
            Take(knob, Body(after, bike, trial, knob));
        }
        if (trial.Pitches is { } pitches)
        {
            Take(Find("chain")!, Chain(after, pitches));
        }
        if (trial.OffsetSteps != 0)
        {
            Take(Find("offset")!, Offset(after, bike, trial));
        }
        if (trial.TravelMm is not null)
        {
            Take(Find("travel")!, null);
        }
        foreach (
            var (key, rad) in (ReadOnlySpan<(string, double?)>)
                [("lean", trial.Tilt?.LeanRad), ("toe", trial.Tilt?.ToeRad)]
        )
        {
            if (rad is not (null or 0))
            {
                Take(Find(key)!, null);
            }
        }
        for (var i = 0; !trial.Rings.IsDefault && i < trial.Rings.Length; i++)
        {
            if (trial.Rings[i] != bike.Spec.Rings[i].Teeth)
            {
                Take(Knobs.RingTeeth(bike.Spec, i), Ring(after, bike, i, trial.Rings[i]));
            }
        }
        for (var i = 0; !trial.Cogs.IsDefault && i < trial.Cogs.Length; i++)
        {
            if (trial.Cogs[i] != bike.Spec.Cogs.Teeth[i])
            {
                Take(Knobs.CogTeeth(bike.Spec, i), Cog(after, bike, i, trial));
            }
        }
        var recheck = new List<string>();
        if (kept.Count > 0)
        {
            after = WithoutSpokes(after, recheck);
        }
        if (!trial.Cogs.IsDefault)
        {
            after = WithoutTips(after, bike.Spec.Cogs.Teeth, trial.Cogs, recheck);
        }
        if (trial.Pitches is not null || !trial.Rings.IsDefault || !trial.Cogs.IsDefault)
        {
            after = WithoutGaps(after, recheck);
        }
        return new(after, kept, left, recheck);

        Knob? Find(string key) => knobs.FirstOrDefault(knob => knob.Key == key);

        void Take(Knob knob, SpecSheet? next)
        {
            var words = Texts.Get(
                "mech.changed",
                knob.Label,
                knob.Say(knob.Nearest(knob.Read(trial)))
            );
            (next is null ? left : kept).Add(words);
            after = next ?? after;
        }
    }

    /// <summary>All that is kept moves the cage: the room to the spokes measured before says nothing of it.</summary>
    private static SpecSheet WithoutSpokes(SpecSheet sheet, List<string> recheck)
    {
        const string path = "wheel.cageToSpokes";
        if (sheet[path] is null)
        {
            return sheet;
        }
        recheck.Add(Texts.Get("mech.recheckSpokes"));
        return sheet.With(path, null);
    }

    /// <summary>What was read over the tips of an end cog says nothing of the one that takes its place.</summary>
    private static SpecSheet WithoutTips(
        SpecSheet sheet,
        ImmutableArray<int> old,
        ImmutableArray<int> now,
        List<string> recheck
    )
    {
        foreach (
            var (distance, at) in (ReadOnlySpan<(BenchDistance, int)>)
                [(BenchDistance.SmallestCogTip, 0), (BenchDistance.LargestCogTip, old.Length - 1)]
        )
        {
            var place = new BenchPlace(distance);
            if (old[at] != now[at] && MeasuredSheet.ValueMm(sheet, place) is not null)
            {
                recheck.Add(Texts.Get("mech.recheckTips", old[at]));
                sheet = MeasuredSheet.With(sheet, place, []);
            }
        }
        return sheet;
    }

    /// <summary>Gaps that were read with another chain, or on other teeth, would bend the mechanism that is found from them.</summary>
    private static SpecSheet WithoutGaps(SpecSheet sheet, List<string> recheck)
    {
        const string list = "measured.gaps";
        for (var count = sheet.CountOf(list); count > 0; count--)
        {
            recheck.Add(
                Texts.Get("mech.recheckGap", sheet[$"{list}[0].ring"], sheet[$"{list}[0].cog"])
            );
            sheet = sheet.Without(list, 0);
        }
        return sheet;
    }

    private static SpecSheet? Body(SpecSheet sheet, ComputedBike bike, Trial trial, Knob knob)
    {
        // On the axle the angle is an outcome, a sprung body's is its spring's, a measured bike's comes from what was measured.
        if (
            bike.Fit is not null
            || trial.BodyAngleRad is not { } angle
            || bike.Spec.RearDerailleur is not { Coaxial: null, Sprung: null }
        )
        {
            return null;
        }
        var after = sheet.With("rearDerailleur.bodyAngle", Degrees(angle));
        // The stops are given at the spec's own body angle and turn with the body: those of a class too, so both are written.
        var turn = angle - bike.Table.BodyAngleRad;
        var cage = bike.Spec.RearDerailleur.Cage;
        after = after
            .With("rearDerailleur.cage.rearStop", Degrees(cage.RearStopRad + turn))
            .With("rearDerailleur.cage.frontStop", Degrees(cage.FrontStopRad + turn));
        if (knob.Key == "screw")
        {
            const string screw = "rearDerailleur.bodyAngleScrew";
            var turns = knob.Read(trial);
            after = Counted(after, $"{screw}.turnsLeftIn", -turns);
            after = Counted(after, $"{screw}.turnsLeftOut", turns);
        }
        return after;
    }

    private static SpecSheet Chain(SpecSheet sheet, int pitches)
    {
        var after = sheet.With("chain.pitches", Number(pitches));
        return pitches % 2 == 1 ? after.With("chain.halfLink", "true") : after;
    }

    private static SpecSheet? Offset(SpecSheet sheet, ComputedBike bike, Trial trial)
    {
        var moved = trial.On(bike.Spec);
        if (moved.RearDerailleur is not { } rear || moved.Shifting is not { } shifting)
        {
            return null;
        }
        var after = sheet.With("rearDerailleur.indexOffset", Number(rear.IndexOffsetMm));
        const string positions = "shifting.positions";
        if (after[positions] is not null)
        {
            after = after.With(
                positions,
                $"[{string.Join(", ", shifting.PositionsMm.Select(Number))}]"
            );
        }
        after = Counted(after, "shifting.stepsLeftOutboard", -trial.OffsetSteps);
        return Counted(after, "shifting.stepsLeftInboard", trial.OffsetSteps);
    }

    private static SpecSheet Ring(SpecSheet sheet, ComputedBike bike, int index, int teeth)
    {
        var (oldText, text) = (Number(bike.Spec.Rings[index].Teeth), Number(teeth));
        var after = sheet
            .With($"rings[{index}].teeth", text)
            .With($"rings[{index}].tipDiameter", null);
        foreach (
            var path in (string[])["rearDerailleur.gap.ring", "rearDerailleur.coaxial.setUpRing"]
        )
        {
            after = after[path] == oldText ? after.With(path, text) : after;
        }
        foreach (
            var list in (string[])
                ["frontDerailleur.trims", "frontDerailleur.positions", "gearsNotUsed"]
        )
        {
            after = Renamed(after, list, "ring", oldText, text);
        }
        return after;
    }

    private static SpecSheet Cog(SpecSheet sheet, ComputedBike bike, int index, Trial trial)
    {
        var (old, now) = (Number(bike.Spec.Cogs.Teeth[index]), Number(trial.Cogs[index]));
        var after = sheet.With("cogs.teeth", string.Join('-', trial.Cogs));
        const string gap = "rearDerailleur.gap.cog";
        after = after[gap] == old ? after.With(gap, now) : after;
        after = Renamed(after, "gearsNotUsed", "cog", old, now);
        // Under a cog the pivot stands where the cog stands, however many teeth it has.
        after = Renamed(after, "measured.positions", "cog", old, now);
        const string tips = "cogs.tipDiameters";
        if (after[tips]?.Trim('[', ']').Split(',') is { } entries && index < entries.Length)
        {
            entries[index] = "null";
            after = after.With(
                tips,
                $"[{string.Join(", ", entries.Select(entry => entry.Trim()))}]"
            );
        }
        return after;
    }

    private static SpecSheet Renamed(
        SpecSheet sheet,
        string list,
        string field,
        string oldText,
        string text
    )
    {
        for (var i = 0; i < sheet.CountOf(list); i++)
        {
            var path = $"{list}[{i}].{field}";
            sheet = sheet[path] == oldText ? sheet.With(path, text) : sheet;
        }
        return sheet;
    }

    /// <summary>A count of turns or steps left, by so many more, where the sheet has it.</summary>
    private static SpecSheet Counted(SpecSheet sheet, string path, double more) =>
        sheet[path] is { } text
        && double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var leftNow)
            ? sheet.With(path, Number(leftNow + more))
            : sheet;

    private static string Degrees(double rad) =>
        (rad * 180 / Math.PI).ToString("0.###", CultureInfo.InvariantCulture);

    private static string Number(double value) =>
        value.ToString("0.###", CultureInfo.InvariantCulture);
}
