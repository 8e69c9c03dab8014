using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <summary>Turns the model's results into named quantities. Angles leave the radians of the model here.</summary>
internal static class QuantityMaker
{
    internal static IEnumerable<Quantity> Make(
        DrivetrainSpec spec,
        ChainChoice choice,
        GearTable? table
    )
    {
        var assumed = new AssumedDependence(spec.Assumptions);
        if (choice.Numbers.Recommended is { } pitches)
        {
            yield return Plain(
                QuantityNames.ChainPitches,
                "pitches",
                pitches,
                spec.RearDerailleur is null ? assumed.DirectPath : assumed.Pose
            );
        }
        // Counted on the stand, where the wheel hangs; the longest position is told beside it.
        yield return new(
            QuantityNames.DirectPath,
            "pitches",
            Texts.Get(
                $"convention.{QuantityNames.DirectPath}",
                DirectPathOver(spec),
                RearEndWords.At(spec, null)
            ),
            null,
            spec.Frame.Suspension is null
                ? choice.Numbers.DirectLargestPitches
                : ChainChooser.DirectPathPitches(spec, travelMm: 0),
            0,
            assumed.DirectPath
        );
        if (spec.Rings.Length == 1 && spec.Cogs.Teeth.Length == 1)
        {
            yield return Plain(
                QuantityNames.ChainlineOffset,
                "mm",
                Math.Abs(spec.Rings[0].LateralMm - spec.Cogs.LateralMm(0)),
                assumed.Lateral
            );
        }
        var rearEnd = RearEndWords.State(spec, table);
        foreach (var quantity in FrontQuantities.Make(table, assumed))
        {
            yield return quantity;
        }
        foreach (var gear in table?.Gears ?? [])
        {
            foreach (
                var quantity in OfGear(gear, spec.RearDerailleur is not null, assumed, rearEnd)
            )
            {
                // A figure that does not exist in this gear is not offered; the gear's state says why.
                if (double.IsFinite(quantity.Value))
                {
                    yield return quantity;
                }
            }
        }
    }

    private static IEnumerable<Quantity> OfGear(
        GearResult gear,
        bool hasCage,
        AssumedDependence assumed,
        string rearEnd
    )
    {
        Quantity Of(string name, string unit, double value, bool rests, double tip = 0) =>
            new(
                name,
                unit,
                Texts.Get($"convention.{name}", gear.Gear.RingTeeth, gear.Gear.CogTeeth, rearEnd),
                (gear.Gear.RingTeeth, gear.Gear.CogTeeth),
                value,
                tip,
                rests
            );

        yield return Of(
            QuantityNames.ChainAngle,
            "°",
            Degrees(gear.ChainAngleRad),
            assumed.Lateral
        );
        if (!hasCage)
        {
            yield break;
        }
        if (gear.HasPose)
        {
            yield return Of(
                QuantityNames.Gap,
                "mm",
                gear.GapMm,
                assumed.Pose,
                gear.GapTipUncertaintyMm
            );
            yield return Of(
                QuantityNames.GapToNextCog,
                "mm",
                gear.GapToNextMm,
                assumed.Pose,
                gear.GapTipUncertaintyMm
            );
            yield return Of(QuantityNames.CageAngle, "°", Degrees(gear.CageAngleRad), assumed.Pose);
            yield return Of(
                QuantityNames.CogTeethInMesh,
                "teeth",
                gear.CogTeethInMesh,
                assumed.Pose
            );
            yield return Of(QuantityNames.TopRun, "mm", gear.TopRunMm, assumed.Pose);
        }
        if (gear.HasReach)
        {
            yield return Of(QuantityNames.TightMargin, "mm", gear.TightMarginMm, assumed.Pose);
            yield return Of(QuantityNames.LooseMargin, "mm", gear.LooseMarginMm, assumed.Pose);
        }
    }

    /// <summary>What the direct path is laid over beside ring and cog, in words.</summary>
    internal static string DirectPathOver(DrivetrainSpec spec) =>
        spec.RearDerailleur is null
            ? ""
            : Texts.Get(
                spec.Idler is null
                    ? "convention.direct-path.derailleur"
                    : "convention.direct-path.idler"
            );

    private static Quantity Plain(string name, string unit, double value, bool rests) =>
        new(name, unit, Texts.Get($"convention.{name}"), null, value, 0, rests);

    private static double Degrees(double radians) => radians * 180 / Math.PI;
}
