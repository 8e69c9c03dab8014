using System.Globalization;
using Cogwright.Files;

namespace Cogwright.Web.Bikes;

/// <summary>What a trial becomes in the spec. Immutable.</summary>
/// <param name="Sheet">The sheet with it.</param>
/// <param name="Kept">What is written, each as a few words; empty when the spec has no field for any of it.</param>
/// <param name="Left">What stays a trial, each as a few words.</param>
public sealed record TrialKeeping(
    SpecSheet Sheet,
    IReadOnlyList<string> Kept,
    IReadOnlyList<string> Left
)
{
    /// <summary>Writes what is tried into a sheet, as far as it has fields for it.</summary>
    /// <param name="sheet">The sheet as it is.</param>
    /// <param name="bike">The bike as that sheet says.</param>
    /// <param name="knobs">The bike's knobs.</param>
    /// <param name="trial">What is tried.</param>
    public static TrialKeeping Of(
        SpecSheet sheet,
        ComputedBike bike,
        IEnumerable<Knob> knobs,
        Trial trial
    )
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(bike);
        ArgumentNullException.ThrowIfNull(knobs);
        var kept = new List<string>();
        var left = new List<string>();
        var after = sheet;
        foreach (var knob in knobs)
        {
            var value = knob.Read(trial);
            if (knob.Nearest(value) == knob.AsSpec)
            {
                continue;
            }
            var words = Texts.Get("mech.changed", knob.Label, knob.Say(knob.Nearest(value)));
            var next = knob.Key switch
            {
                "screw" or "body" => Body(after, bike, trial, value, knob.Key == "screw"),
                "chain" => Chain(after, (int)value),
                "offset" => Offset(after, bike, trial),
                "ring" => Rings(after, bike, trial),
                "cog" => Cogs(after, bike, trial),
                _ => null,
            };
            (next is null ? left : kept).Add(words);
            after = next ?? after;
        }
        return new(after, kept, left);
    }

    private static SpecSheet? Body(
        SpecSheet sheet,
        ComputedBike bike,
        Trial trial,
        double turns,
        bool isScrew
    )
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
        // The stops are given at the spec's own body angle: stated ones turn with the body.
        var turn = angle - bike.Table.BodyAngleRad;
        var cage = bike.Spec.RearDerailleur.Cage;
        after = Stated(after, "rearDerailleur.cage.rearStop", Degrees(cage.RearStopRad + turn));
        after = Stated(after, "rearDerailleur.cage.frontStop", Degrees(cage.FrontStopRad + turn));
        if (isScrew && bike.Spec.RearDerailleur.BodyAngleScrew is { } screw)
        {
            after = Stated(
                after,
                "rearDerailleur.bodyAngleScrew.turnsLeftIn",
                Number((screw.TurnsLeftIn ?? 0) - turns)
            );
            after = Stated(
                after,
                "rearDerailleur.bodyAngleScrew.turnsLeftOut",
                Number((screw.TurnsLeftOut ?? 0) + turns)
            );
        }
        return after;
    }

    private static SpecSheet Chain(SpecSheet sheet, int pitches)
    {
        var after = sheet.With("chain.pitches", Number(pitches));
        return pitches % 2 == 1 ? after.With("chain.halfLink", "true") : after;
    }

    private static SpecSheet? Offset(SpecSheet sheet, ComputedBike bike, Trial trial) =>
        trial.On(bike.Spec).RearDerailleur is { } rear
            ? sheet.With("rearDerailleur.indexOffset", Number(rear.IndexOffsetMm))
            : null;

    private static SpecSheet? Rings(SpecSheet sheet, ComputedBike bike, Trial trial)
    {
        if (trial.Rings.IsDefault)
        {
            return null;
        }
        var after = sheet;
        for (var i = 0; i < trial.Rings.Length; i++)
        {
            var old = bike.Spec.Rings[i].Teeth;
            var now = trial.Rings[i];
            if (old == now)
            {
                continue;
            }
            var (oldText, text) = (Number(old), Number(now));
            after = after.With($"rings[{i}].teeth", text).With($"rings[{i}].tipDiameter", null);
            foreach (
                var path in (string[])
                    ["rearDerailleur.gap.ring", "rearDerailleur.coaxial.setUpRing"]
            )
            {
                after = after[path] == oldText ? after.With(path, text) : after;
            }
            for (var trim = 0; trim < after.CountOf("frontDerailleur.trims"); trim++)
            {
                var path = $"frontDerailleur.trims[{trim}].ring";
                after = after[path] == oldText ? after.With(path, text) : after;
            }
            after = Gears(after, "ring", oldText, text);
        }
        return after;
    }

    private static SpecSheet? Cogs(SpecSheet sheet, ComputedBike bike, Trial trial)
    {
        if (trial.Cogs.IsDefault)
        {
            return null;
        }
        var after = sheet.With("cogs.teeth", string.Join('-', trial.Cogs));
        for (var i = 0; i < trial.Cogs.Length; i++)
        {
            var (old, now) = (Number(bike.Spec.Cogs.Teeth[i]), Number(trial.Cogs[i]));
            if (old == now)
            {
                continue;
            }
            const string gap = "rearDerailleur.gap.cog";
            after = after[gap] == old ? after.With(gap, now) : after;
            after = Gears(after, "cog", old, now);
            if (after["cogs.tipDiameters"] is { } tips)
            {
                var entries = tips.Trim('[', ']').Split(',');
                if (i < entries.Length)
                {
                    entries[i] = "null";
                    after = after.With(
                        "cogs.tipDiameters",
                        $"[{string.Join(", ", entries.Select(entry => entry.Trim()))}]"
                    );
                }
            }
        }
        return after;
    }

    private static SpecSheet Gears(SpecSheet sheet, string field, string oldText, string text)
    {
        for (var i = 0; i < sheet.CountOf("gearsNotUsed"); i++)
        {
            var path = $"gearsNotUsed[{i}].{field}";
            sheet = sheet[path] == oldText ? sheet.With(path, text) : sheet;
        }
        return sheet;
    }

    private static SpecSheet Stated(SpecSheet sheet, string path, string text) =>
        sheet[path] is null ? sheet : sheet.With(path, text);

    private static string Degrees(double rad) =>
        (rad * 180 / Math.PI).ToString("0.###", CultureInfo.InvariantCulture);

    private static string Number(double value) =>
        value.ToString("0.###", CultureInfo.InvariantCulture);
}
