using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Files.Classes;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>
/// Places cogs and rings from hub, cassette, crank and chainline figures. A measured position always wins; a position
/// from figures that the file gives in full is no assumption, one that leans on common practice is.
/// </summary>
internal static class LateralAssumed
{
    internal static void FillCogs(Leaves leaves, ImmutableArray<int> teeth)
    {
        var cogs = teeth.Length;
        var practice = Texts.Get("class.practice");
        var thickness = leaves.NumberOrNull("cogs.thickness");
        if (cogs > 1 && leaves.NumberOrNull("cogs.stackWidth") is { } stack)
        {
            var cog = thickness ?? LateralPractice.CogThicknessMm(cogs);
            Fill(
                leaves,
                "cogs.spacing",
                LateralPractice.SpacingFromStackMm(stack, cogs, cog),
                thickness is null ? practice : null,
                "cogs.stackWidth",
                "cogs.thickness"
            );
        }
        if (CommonPractice.CogSpacingMm(cogs) is { } usual)
        {
            // A lone cog has no neighbour: its spacing is no figure that anybody could measure.
            Fill(leaves, "cogs.spacing", usual, cogs > 1 ? practice : null);
        }
        if (cogs == 1)
        {
            Fill(
                leaves,
                "cogs.smallestLateral",
                leaves.NumberOrNull("cogs.chainline")
                    ?? leaves.NumberOrNull("rings[0].lateral")
                    ?? CommonPractice.LoneCogLateralMm,
                leaves.Has("cogs.chainline") ? null : practice
            );
        }
        else if (
            leaves.NumberOrNull("cogs.chainline") is { } chainline
            && leaves.NumberOrNull("cogs.spacing") is { } spacing
        )
        {
            Fill(
                leaves,
                "cogs.smallestLateral",
                LateralPractice.SmallestCogFromChainlineMm(chainline, cogs, spacing),
                leaves.Find("cogs.spacing")!.From,
                "cogs.chainline",
                "cogs.spacing"
            );
        }
        else
        {
            FillFromHub(leaves, cogs, thickness, practice);
        }
    }

    internal static void FillRings(Leaves leaves, IReadOnlyList<int> largestFirst)
    {
        if (leaves.NumberOrNull("crank.chainline") is not { } chainline)
        {
            return;
        }
        var rings = largestFirst.Count;
        var given = leaves.NumberOrNull("crank.ringSpacing");
        if ((given ?? CommonPractice.RingSpacingMm(rings)) is not { } spacing)
        {
            return;
        }
        for (var place = 0; place < rings; place++)
        {
            Fill(
                leaves,
                $"rings[{largestFirst[place]}].lateral",
                LateralPractice.RingLateralMm(chainline, spacing, rings, place),
                given is null && rings > 1 ? Texts.Get("class.practice") : null,
                "crank.chainline",
                "crank.ringSpacing"
            );
        }
    }

    /// <summary>A wheel is trued until its rim stands in the middle; where its holes lie beside that is rarely known.</summary>
    internal static void FillWheel(Leaves leaves)
    {
        if (leaves.Has("wheel.flangeLateral"))
        {
            Fill(leaves, "wheel.rimLateral", 0, Texts.Get("class.practice"));
        }
    }

    private static void FillFromHub(Leaves leaves, int cogs, double? thickness, string practice)
    {
        var hub = leaves.WholeOrNull("cogs.hubSpacing");
        var spacing = hub ?? CommonPractice.UsualHubSpacing;
        var recess = leaves.NumberOrNull("cogs.recess");
        var gap = leaves.NumberOrNull("cogs.locknutGap");
        var lateral = LateralPractice.SmallestCogLateralMm(
            LateralPractice.HalfWidthMm(spacing, recess ?? LateralPractice.RecessMm(spacing)),
            gap ?? LateralPractice.LocknutGapMm,
            thickness ?? LateralPractice.CogThicknessMm(cogs)
        );
        var stated =
            hub is not null
            && gap is not null
            && thickness is not null
            && (recess is not null || LateralPractice.RecessMm(spacing) == 0);
        Fill(
            leaves,
            "cogs.smallestLateral",
            lateral,
            stated ? null : practice,
            "cogs.hubSpacing",
            "cogs.locknutGap",
            "cogs.thickness"
        );
    }

    /// <param name="leaves">The values so far.</param>
    /// <param name="path">Where the value belongs.</param>
    /// <param name="valueMm">The value (mm).</param>
    /// <param name="from">What it is assumed from, or null when it follows from figures that were given.</param>
    /// <param name="inputs">Those figures.</param>
    private static void Fill(
        Leaves leaves,
        string path,
        double valueMm,
        string? from,
        params ReadOnlySpan<string> inputs
    )
    {
        if (leaves.Has(path) || leaves.HasFailed(path))
        {
            return;
        }
        var shape = new QuantityShape(Dimension.Length);
        if (from is null)
        {
            leaves.SetFrom(path, valueMm, shape, inputs);
        }
        else
        {
            leaves.Set(path, valueMm, shape, from);
        }
    }
}
