using Cogwright.Drivetrain;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>Between the lateral fields of a file and the model.</summary>
internal static class LateralBinder
{
    /// <summary>The lateral data, or null when the file gives none.</summary>
    internal static LateralData? Bind(Leaves leaves)
    {
        var data = new LateralData
        {
            Cassette = Cassette(leaves),
            Crank = Given(leaves, "crank.chainline", "crank.ringSpacing")
                ? new(
                    leaves.NumberOrNull("crank.chainline"),
                    leaves.NumberOrNull("crank.ringSpacing")
                )
                : null,
            Spokes = Spokes(leaves),
            CageInnerFaceMm = leaves.NumberOrNull("rearDerailleur.cage.innerFace"),
            CageReachMm = leaves.NumberOrNull("rearDerailleur.cage.reach"),
            ChainWidthMm = leaves.NumberOrNull("chain.width"),
            RingThicknessMm = leaves.NumberOrNull("crank.ringThickness"),
            DropoutFaceMm = leaves.NumberOrNull("frame.dropoutFace"),
        };
        return data == new LateralData() ? null : data;
    }

    /// <summary>The swing at which a stop holds (rad): given as an angle, as the pulley's position or as its overshoot; null when not given or beyond the parallelogram.</summary>
    internal static double? StopRad(Leaves leaves, string stop)
    {
        var path = $"rearDerailleur.{stop}";
        if (leaves.NumberOrNull(path) is { } angle)
        {
            return angle;
        }
        return StopLateralMm(leaves, stop) is { } lateral
            ? StopReach.SwingRadAt(
                leaves.Number("rearDerailleur.guideLateralAtZero"),
                leaves.Number("rearDerailleur.linkLength"),
                leaves.Number("rearDerailleur.slant"),
                lateral
            )
            : null;
    }

    /// <summary>
    /// The field by which a value was given: the model knows a stop by its angle only, and of a bench reading the
    /// uncertainty that holds for it; any other path as it is.
    /// </summary>
    internal static string AsWritten(Leaves leaves, string path)
    {
        if (path is "rearDerailleur.inboardStop" or "rearDerailleur.outboardStop")
        {
            foreach (var way in (string[])["", "Lateral", "Overshoot"])
            {
                if (leaves.Has(path + way))
                {
                    return path + way;
                }
            }
        }
        const string own = ".uncertainty";
        return
            path.StartsWith("measured.", StringComparison.Ordinal)
            && path.EndsWith(own, StringComparison.Ordinal)
            && !leaves.Has(path)
            ? leaves.NumberOrNull("measured.uncertainty")
                is { }
                    and not (> 0 and <= SpecCheck.MostReadingUncertaintyMm)
                ? "measured.uncertainty"
                : path[..^own.Length]
            : path;
    }

    /// <summary>Where the guide pulley stands at a stop (mm) by its position or its overshoot, or null.</summary>
    internal static double? StopLateralMm(Leaves leaves, string stop)
    {
        var path = $"rearDerailleur.{stop}";
        if (leaves.NumberOrNull(path + "Lateral") is { } lateral)
        {
            return lateral;
        }
        if (leaves.NumberOrNull(path + "Overshoot") is not { } overshoot)
        {
            return null;
        }
        var smallest = leaves.Number("cogs.smallestLateral");
        if (stop == "outboardStop")
        {
            return smallest + overshoot;
        }
        var teeth = (System.Collections.Immutable.ImmutableArray<int>)
            leaves.Find("cogs.teeth")!.Value;
        return smallest - ((teeth.Length - 1) * leaves.Number("cogs.spacing")) - overshoot;
    }

    /// <summary>Takes the lateral data apart again; the stops come back as angles.</summary>
    internal static void Unbind(LateralData? data, Action<string, object?> set)
    {
        if (data is null)
        {
            return;
        }
        if (data.Cassette is { } cassette)
        {
            set("cogs.hubSpacing", cassette.HubSpacingMm is { } hub ? (int)hub : null);
            set("cogs.recess", cassette.RecessMm);
            set("cogs.locknutGap", cassette.LocknutGapMm);
            set("cogs.thickness", cassette.CogThicknessMm);
            set("cogs.stackWidth", cassette.StackWidthMm);
            set("cogs.chainline", cassette.ChainlineMm);
        }
        set("crank.chainline", data.Crank?.ChainlineMm);
        set("crank.ringSpacing", data.Crank?.RingSpacingMm);
        set("crank.ringThickness", data.RingThicknessMm);
        set("wheel.flangeLateral", data.Spokes?.FlangeLateralMm);
        set("wheel.flangeRadius", data.Spokes?.FlangeRadiusMm);
        set("wheel.rimLateral", data.Spokes?.RimLateralMm);
        set("wheel.rimRadius", data.Spokes?.RimRadiusMm);
        set("wheel.spokeThickness", data.Spokes?.ThicknessMm);
        set("wheel.cageToSpokes", data.Spokes?.CageToSpokesMm);
        set("wheel.cogToSpokes", data.Spokes?.CogToSpokesMm);
        set("rearDerailleur.cage.innerFace", data.CageInnerFaceMm);
        set("rearDerailleur.cage.reach", data.CageReachMm);
        set("chain.width", data.ChainWidthMm);
        set("frame.dropoutFace", data.DropoutFaceMm);
    }

    private static CassettePlace? Cassette(Leaves leaves)
    {
        var place = new CassettePlace
        {
            HubSpacingMm = leaves.WholeOrNull("cogs.hubSpacing"),
            RecessMm = leaves.NumberOrNull("cogs.recess"),
            LocknutGapMm = leaves.NumberOrNull("cogs.locknutGap"),
            CogThicknessMm = leaves.NumberOrNull("cogs.thickness"),
            StackWidthMm = leaves.NumberOrNull("cogs.stackWidth"),
            ChainlineMm = leaves.NumberOrNull("cogs.chainline"),
        };
        return place == new CassettePlace() ? null : place;
    }

    private static SpokeData? Spokes(Leaves leaves)
    {
        var spokes = new SpokeData
        {
            FlangeLateralMm = leaves.NumberOrNull("wheel.flangeLateral"),
            FlangeRadiusMm = leaves.NumberOrNull("wheel.flangeRadius"),
            RimLateralMm = leaves.NumberOrNull("wheel.rimLateral"),
            RimRadiusMm = leaves.NumberOrNull("wheel.rimRadius"),
            ThicknessMm = leaves.NumberOrNull("wheel.spokeThickness"),
            CageToSpokesMm = leaves.NumberOrNull("wheel.cageToSpokes"),
            CogToSpokesMm = leaves.NumberOrNull("wheel.cogToSpokes"),
        };
        return spokes == new SpokeData() ? null : spokes;
    }

    private static bool Given(Leaves leaves, params ReadOnlySpan<string> paths)
    {
        foreach (var path in paths)
        {
            if (leaves.Has(path))
            {
                return true;
            }
        }
        return false;
    }
}
