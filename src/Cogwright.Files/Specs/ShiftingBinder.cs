using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>Builds the hanger, the shifting and the adjusters of a spec, and takes them apart again.</summary>
internal static class ShiftingBinder
{
    internal static Hanger? Hanger(Leaves leaves) =>
        leaves.Find("hanger.offset")?.Value is Point offset
            ? new(offset)
            {
                Material = ShiftingFields
                    .Materials.FirstOrDefault(m => m.Name == leaves.Text("hanger.material"))
                    .Material,
                Bends = leaves.WholeOrNull("hanger.bends"),
                GaugeRadiusMm = leaves.NumberOrNull("hanger.gaugeRadius"),
            }
            : null;

    internal static Shifting? Shifting(Leaves leaves)
    {
        const string path = "shifting.";
        return leaves.HasGroup("shifting")
            ? new()
            {
                PullMm = Lengths(leaves, path + "pull"),
                ShiftRatio = leaves.NumberOrNull(path + "shiftRatio"),
                PositionsMm = Lengths(leaves, path + "positions"),
                OffsetStepMm = leaves.NumberOrNull(path + "offsetStep"),
                StepsLeftOutboard = leaves.WholeOrNull(path + "stepsLeftOutboard"),
                StepsLeftInboard = leaves.WholeOrNull(path + "stepsLeftInboard"),
            }
            : null;
    }

    internal static ImmutableArray<Adjuster> Adjusters(Leaves leaves) =>
        [
            .. Enumerable
                .Range(0, leaves.Count("adjusters"))
                .Select(i => Adjuster(leaves, $"adjusters[{i}].")),
        ];

    internal static void SetHanger(Hanger hanger, Action<string, object?> set)
    {
        if (hanger.Material is not HangerMaterial.Unknown)
        {
            set(
                "hanger.material",
                ShiftingFields.Materials.First(m => m.Material == hanger.Material).Name
            );
        }
        set("hanger.bends", hanger.Bends);
        set("hanger.gaugeRadius", hanger.GaugeRadiusMm);
    }

    internal static void SetShifting(Shifting shifting, Action<string, object?> set)
    {
        const string path = "shifting.";
        SetLengths(path + "pull", shifting.PullMm, set);
        set(path + "shiftRatio", shifting.ShiftRatio);
        SetLengths(path + "positions", shifting.PositionsMm, set);
        set(path + "offsetStep", shifting.OffsetStepMm);
        set(path + "stepsLeftOutboard", shifting.StepsLeftOutboard);
        set(path + "stepsLeftInboard", shifting.StepsLeftInboard);
    }

    internal static void SetAdjuster(string path, Adjuster adjuster, Action<string, object?> set)
    {
        set(path + "name", adjuster.Name);
        set(path + "moves", ShiftingFields.Moved.First(m => m.Moves == adjuster.Moves).Name);
        set(path + "tool", adjuster.Tool);
        set(path + "threadPitch", adjuster.ThreadPitchMm);
        set(path + "leverRadius", adjuster.LeverRadiusMm);
        set(path + "mmPerTurn", adjuster.MmPerTurn);
        set(path + "clicksPerTurn", adjuster.ClicksPerTurn);
        set(path + "turnsLeftIn", adjuster.TurnsLeftIn);
        set(path + "turnsLeftOut", adjuster.TurnsLeftOut);
        if (adjuster.ClockwiseOutboard is { } outboard)
        {
            set(path + "clockwise", outboard ? ShiftingFields.Outboard : ShiftingFields.Inboard);
        }
        set(path + "leastTurn", adjuster.LeastTurn);
    }

    private static Adjuster Adjuster(Leaves leaves, string path)
    {
        var moves = leaves.Text(path + "moves");
        var adjuster = new Adjuster
        {
            Name = leaves.Text(path + "name")!,
            Moves = ShiftingFields.Moved.First(m => m.Name == moves).Moves,
            Tool = leaves.Text(path + "tool"),
            ThreadPitchMm = leaves.NumberOrNull(path + "threadPitch"),
            LeverRadiusMm = leaves.NumberOrNull(path + "leverRadius"),
            MmPerTurn = leaves.NumberOrNull(path + "mmPerTurn"),
            ClicksPerTurn = leaves.WholeOrNull(path + "clicksPerTurn"),
            TurnsLeftIn = leaves.NumberOrNull(path + "turnsLeftIn"),
            TurnsLeftOut = leaves.NumberOrNull(path + "turnsLeftOut"),
            ClockwiseOutboard = leaves.Text(path + "clockwise") switch
            {
                ShiftingFields.Outboard => true,
                ShiftingFields.Inboard => false,
                _ => null,
            },
        };
        return adjuster with
        {
            LeastTurn = leaves.NumberOrNull(path + "leastTurn") ?? adjuster.LeastTurn,
        };
    }

    private static ImmutableArray<double> Lengths(Leaves leaves, string path) =>
        leaves.Find(path)?.Value is ImmutableArray<double?> lengths
            ? [.. lengths.Select(length => length!.Value)]
            : [];

    private static void SetLengths(
        string path,
        ImmutableArray<double> lengths,
        Action<string, object?> set
    )
    {
        if (!lengths.IsDefaultOrEmpty)
        {
            set(path, lengths.Select(length => (double?)length).ToImmutableArray());
        }
    }
}
