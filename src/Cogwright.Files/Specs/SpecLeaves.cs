using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>Takes a spec apart into the values of its file: the reverse of <see cref="SpecBinder"/>.</summary>
internal static class SpecLeaves
{
    private static readonly Dictionary<string, Shape> Shapes = FieldTable
        .Walk(SpecFields.Spec)
        .ToDictionary(r => r.Path, r => r.Field.Shape, StringComparer.Ordinal);

    internal static Leaves Of(SpecFile file)
    {
        var leaves = new Leaves();
        var spec = file.Drivetrain;
        Set(leaves, "format", SpecFields.Format);
        Set(leaves, "name", spec.Name);
        SetParts(leaves, file.Parts);
        Set(leaves, "frame.chainstay", spec.Frame.ChainstayMm);
        Set(leaves, "frame.bbDrop", spec.Frame.BottomBracketDropMm);
        SetUnless(leaves, "frame.axleTravel", spec.Frame.AxleTravelMm, 0.0);
        Set(leaves, "hanger.offset", spec.Hanger?.OffsetMm);
        SetSprockets(leaves, spec);
        Set(leaves, "chain.pitches", spec.Chain.Pitches);
        SetUnless(leaves, "chain.elongation", spec.Chain.Elongation, 0.0);
        SetUnless(leaves, "chain.halfLink", spec.Chain.HalfLink, false);
        if (spec.RearDerailleur is { } derailleur)
        {
            SetDerailleur(leaves, derailleur);
        }
        LateralBinder.Unbind(spec.Lateral, (path, value) => Set(leaves, path, value));
        SetShifting(leaves, spec);
        FrontBinder.Unbind(spec.FrontDerailleur, leaves, (path, value) => Set(leaves, path, value));
        SetWork(leaves, file.Work);
        RearEndBinder.Set(leaves, spec);
        if (spec.Measured is { } measured)
        {
            MeasuredBinder.Set(leaves, measured, (path, value) => Set(leaves, path, value));
        }
        DeviationFields.Set(leaves, file.Deviations, (path, value) => Set(leaves, path, value));
        return leaves;
    }

    private static void SetParts(Leaves leaves, Build parts)
    {
        foreach (var part in parts.Parts)
        {
            Set(leaves, PartsFields.PathOf(part.Kind), part.Id);
        }
        if (!parts.Adapters.IsEmpty)
        {
            Set(
                leaves,
                PartsFields.Adapters,
                parts.Adapters.Select(adapter => adapter.Id).ToImmutableArray()
            );
        }
    }

    private static void SetSprockets(Leaves leaves, DrivetrainSpec spec)
    {
        leaves.SetCount("rings", spec.Rings.Length);
        for (var i = 0; i < spec.Rings.Length; i++)
        {
            Set(leaves, $"rings[{i}].teeth", spec.Rings[i].Teeth);
            Set(leaves, $"rings[{i}].lateral", spec.Rings[i].LateralMm);
            Set(leaves, $"rings[{i}].tipDiameter", spec.Rings[i].TipDiameterMm);
        }
        Set(leaves, "cogs.teeth", spec.Cogs.Teeth);
        Set(leaves, "cogs.smallestLateral", spec.Cogs.SmallestLateralMm);
        Set(leaves, "cogs.spacing", spec.Cogs.SpacingMm);
        if (!spec.Cogs.TipDiametersMm.IsDefaultOrEmpty)
        {
            Set(leaves, "cogs.tipDiameters", spec.Cogs.TipDiametersMm);
        }
        leaves.SetCount("gearsNotUsed", spec.GearsNotUsed.Length);
        for (var i = 0; i < spec.GearsNotUsed.Length; i++)
        {
            Set(leaves, $"gearsNotUsed[{i}].ring", spec.GearsNotUsed[i].RingTeeth);
            Set(leaves, $"gearsNotUsed[{i}].cog", spec.GearsNotUsed[i].CogTeeth);
        }
    }

    private static void SetDerailleur(Leaves leaves, RearDerailleur derailleur)
    {
        const string path = "rearDerailleur.";
        Set(leaves, path + "bodyAngle", derailleur.BodyAngleRad);
        Set(leaves, path + "upperPivot", derailleur.UpperPivotMm);
        Set(leaves, path + "linkLength", derailleur.LinkLengthMm);
        Set(leaves, path + "linkAngle", derailleur.LinkAngleRad);
        Set(leaves, path + "slant", derailleur.SlantRad);
        Set(leaves, path + "guideLateralAtZero", derailleur.GuideLateralAtZeroMm);
        SetUnless(leaves, path + "indexOffset", derailleur.IndexOffsetMm, 0.0);
        Set(leaves, path + "outboardStop", derailleur.OutboardStopRad);
        Set(leaves, path + "inboardStop", derailleur.InboardStopRad);
        Set(leaves, path + "leastGap", derailleur.LeastGapMm);
        Set(leaves, path + "leastMargin", derailleur.LeastMarginMm);
        var cage = derailleur.Cage;
        foreach (var (name, pulley) in new[] { ("guide", cage.Guide), ("tension", cage.Tension) })
        {
            Set(leaves, $"{path}cage.{name}.offset", pulley.OffsetMm);
            Set(leaves, $"{path}cage.{name}.teeth", pulley.Teeth);
            Set(leaves, $"{path}cage.{name}.tipDiameter", pulley.TipDiameterMm);
        }
        Set(leaves, path + "cage.guide.float", cage.Guide.FloatMm);
        Set(leaves, path + "cage.rearStop", cage.RearStopRad);
        Set(leaves, path + "cage.frontStop", cage.FrontStopRad);
        if (cage.Spring is { } spring)
        {
            Set(leaves, path + "cage.spring.torqueAtRearStop", spring.TorqueAtRearStopNm);
            Set(leaves, path + "cage.spring.rate", spring.RateNmPerRad);
            SetUnless(leaves, path + "cage.spring.damperTorque", spring.DamperTorqueNm, 0.0);
        }
        SprungBinder.Set(derailleur, (at, value) => Set(leaves, at, value));
        if (derailleur.BodyAngleScrew is { } screw)
        {
            SetScrew(leaves, path + "bodyAngleScrew.", screw);
        }
        MountBinder.Set(derailleur, (field, value) => Set(leaves, field, value));
    }

    private static void SetScrew(Leaves leaves, string path, Adjuster screw)
    {
        Set(leaves, path + "name", screw.Name);
        Set(leaves, path + "tool", screw.Tool);
        Set(leaves, path + "threadPitch", screw.ThreadPitchMm);
        Set(leaves, path + "leverRadius", screw.LeverRadiusMm);
        Set(leaves, path + "turnsLeftIn", screw.TurnsLeftIn);
        Set(leaves, path + "turnsLeftOut", screw.TurnsLeftOut);
        Set(
            leaves,
            path + "clockwise",
            screw.ClockwiseWidensGap ? SpecFields.WidensGap : SpecFields.NarrowsGap
        );
        Set(leaves, path + "leastTurn", screw.LeastTurn);
    }

    private static void SetShifting(Leaves leaves, DrivetrainSpec spec)
    {
        void SetOne(string path, object? value) => Set(leaves, path, value);
        if (spec.Hanger is { } hanger)
        {
            ShiftingBinder.SetHanger(hanger, SetOne);
        }
        if (spec.Shifting is { } shifting)
        {
            ShiftingBinder.SetShifting(shifting, SetOne);
        }
        leaves.SetCount("adjusters", spec.Adjusters.Length);
        for (var i = 0; i < spec.Adjusters.Length; i++)
        {
            ShiftingBinder.SetAdjuster($"adjusters[{i}].", spec.Adjusters[i], SetOne);
        }
    }

    private static void SetWork(Leaves leaves, Setup.WorkSpec work)
    {
        if (work.Gap is { } gap)
        {
            const string path = "rearDerailleur.gap.";
            Set(leaves, path + "ring", gap.RingTeeth);
            Set(leaves, path + "cog", gap.CogTeeth);
            Set(leaves, path + "value", gap.ValueMm);
            Set(leaves, path + "tolerance", gap.ToleranceMm);
        }
        Set(leaves, "work.actuation", SpecFields.ActuationNames[(int)work.Actuation]);
        Set(leaves, "work.frontDerailleur", work.FrontDerailleur);
        Set(leaves, "work.assisted", work.Assisted);
        foreach (var torque in work.Torques)
        {
            var path = $"work.torques.{torque.Fastener}.";
            if (torque.LowerNm == torque.UpperNm)
            {
                Set(leaves, path + "value", torque.LowerNm);
            }
            else
            {
                Set(leaves, path + "lower", torque.LowerNm);
                Set(leaves, path + "upper", torque.UpperNm);
            }
            Set(leaves, path + "tool", torque.Tool);
        }
    }

    private static void SetUnless<T>(Leaves leaves, string path, T value, T usual)
        where T : struct, IEquatable<T>
    {
        if (!value.Equals(usual))
        {
            Set(leaves, path, value);
        }
    }

    internal static void Set(Leaves leaves, string path, object? value)
    {
        if (value is not null)
        {
            leaves.Set(path, value, Shapes[SpecOrder.TablePath(path)]);
        }
    }

    /// <summary>Whether two specs give every field the same value, wherever each value came from.</summary>
    internal static IEnumerable<string> Differences(Leaves a, Leaves b) =>
        a
            .All.Select(l => l.Key)
            .Union(b.All.Select(l => l.Key))
            .Where(path => !Same(a.Find(path)?.Value, b.Find(path)?.Value));

    private static bool Same(object? a, object? b) =>
        (a, b) switch
        {
            (ImmutableArray<int> x, ImmutableArray<int> y) => x.AsSpan().SequenceEqual(y.AsSpan()),
            (ImmutableArray<string> x, ImmutableArray<string> y) => x.SequenceEqual(y),
            (ImmutableArray<double?> x, ImmutableArray<double?> y) => x.AsSpan()
                .SequenceEqual(y.AsSpan()),
            _ => Equals(a, b),
        };
}
