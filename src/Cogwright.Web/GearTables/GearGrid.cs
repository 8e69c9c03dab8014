using System.Collections.Immutable;
using Cogwright.Drawing;
using Cogwright.Drivetrain;
using Cogwright.Web.Bikes;

namespace Cogwright.Web.GearTables;

/// <summary>A line above the table: what is worst, and in which gear.</summary>
/// <param name="Gear">The gear, or the worst of several.</param>
/// <param name="What">What is the matter.</param>
/// <param name="WhatToDo">What to do.</param>
/// <param name="IsBad">Whether a gear refuses to work.</param>
/// <param name="NotUsed">Whether only gears that are not used are concerned.</param>
public sealed record GearNews(Gear Gear, string What, string WhatToDo, bool IsBad, bool NotUsed);

/// <summary>The gear table for the screen: cogs down, rings across, as it fits a phone; and what is worst. Immutable.</summary>
public sealed record GearGrid
{
    /// <summary>Teeth of the rings, largest first.</summary>
    public required ImmutableArray<int> Rings { get; init; }

    /// <summary>Teeth of the cogs, smallest first.</summary>
    public required ImmutableArray<int> Cogs { get; init; }

    /// <summary>The cells: cog by cog, each ring by ring.</summary>
    public required ImmutableArray<GearCell> Cells { get; init; }

    /// <summary>The worst first; empty when every gear is as it should be.</summary>
    public required ImmutableArray<GearNews> News { get; init; }

    /// <summary>The cell of a cog and a ring, by their places.</summary>
    public GearCell At(int cog, int ring) => Cells[(cog * Rings.Length) + ring];

    /// <summary>The grid of a bike.</summary>
    internal static GearGrid Of(ComputedBike bike)
    {
        ArgumentNullException.ThrowIfNull(bike);
        var spec = bike.Spec;
        var findings = bike.Findings;
        ImmutableArray<int> rings = [.. spec.Rings.Select(ring => ring.Teeth).OrderDescending()];
        ImmutableArray<int> cogs = [.. spec.Cogs.Teeth.Order()];
        var worst = new Dictionary<Gear, Finding>();
        foreach (var finding in findings)
        {
            if (
                !worst.TryGetValue(finding.Gear, out var other)
                || Rank(finding.Kind) < Rank(other.Kind)
            )
            {
                worst[finding.Gear] = finding;
            }
        }
        return new()
        {
            Rings = rings,
            Cogs = cogs,
            Cells =
            [
                .. cogs.SelectMany(cog =>
                    rings.Select(ring => Cell(spec, bike.Table.Find(new(ring, cog))!.Value, worst))
                ),
            ],
            News = NewsOf(bike),
        };
    }

    private static ImmutableArray<GearNews> NewsOf(ComputedBike bike)
    {
        var ordered = bike
            .Findings.OrderBy(finding => finding.NotUsed)
            .ThenBy(finding => StateRank(bike, finding))
            .ThenBy(finding => Rank(finding.Kind))
            .ThenByDescending(finding =>
                finding.Kind is FindingKind.State ? finding.ValueMm : -finding.ValueMm
            )
            .ToList();
        return
        [
            .. Explanation
                .Of(ordered, finding => WordsOf(bike, finding), bike.Spec)
                .Select(told => new GearNews(
                    told.First.Gear,
                    told.Words.What,
                    told.Words.WhatToDo,
                    told.First.Kind
                        is FindingKind.State
                            or FindingKind.ShortInTravel
                            or FindingKind.SlackInTravel
                            or FindingKind.ChainTooLongForMark
                            or FindingKind.ChainTooShortForMark
                            or FindingKind.SetUpCogNotReached,
                    told.First.NotUsed
                )),
        ];
    }

    private static Explanation WordsOf(ComputedBike bike, Finding finding) =>
        finding.Kind == FindingKind.State
        && bike.Table.Find(finding.Gear) is { } gear
        && Explanation.Of(gear, bike.Spec) is { } state
            ? state
            : Explanation.Of(finding, bike.Spec);

    /// <summary>What tears parts off comes before what only hangs.</summary>
    private static int StateRank(ComputedBike bike, Finding finding) =>
        finding.Kind != FindingKind.State
            ? 4
            : bike.Table.Find(finding.Gear)?.State switch
            {
                GearState.Short => 0,
                GearState.Unreachable => 1,
                GearState.Clash => 2,
                _ => 3,
            };

    private static int Rank(FindingKind kind) =>
        kind switch
        {
            FindingKind.State => 0,
            FindingKind.ShortInTravel => 1,
            FindingKind.ChainTooShortForMark
            or FindingKind.ChainTooLongForMark
            or FindingKind.SetUpCogNotReached => 2,
            FindingKind.SlackInTravel => 3,
            FindingKind.RubsNextRing => 4,
            FindingKind.RubsFrontCage => 5,
            FindingKind.CageDoesNotReturn => 6,
            FindingKind.BodyAtForwardLimit => 7,
            FindingKind.GapBelowLeast => 8,
            FindingKind.LittleTightMargin => 9,
            FindingKind.GapToNextBelowLeast => 10,
            _ => 11,
        };

    private static GearCell Cell(
        DrivetrainSpec spec,
        in GearResult gear,
        Dictionary<Gear, Finding> worst
    )
    {
        var notUsed = spec.GearsNotUsed.Contains(gear.Gear);
        if (gear.State != GearState.Ok)
        {
            var mark = gear.State switch
            {
                GearState.Short => Mark.Short,
                GearState.Slack => Mark.Slack,
                GearState.Clash => Mark.Clash,
                _ => Mark.Unreachable,
            };
            return new(
                gear.Gear,
                mark,
                gear.ShortfallMm > 0
                    ? Texts.Get($"gears.cell.{mark}", gear.ShortfallMm)
                    : Texts.Get($"gears.cell.{mark}.bare"),
                "",
                notUsed
            );
        }
        var (found, words) = worst.TryGetValue(gear.Gear, out var finding)
            ? (
                MarkOf(finding.Kind),
                Texts.Get($"gears.cell.{finding.Kind}", Math.Abs(finding.ValueMm))
            )
            : (Mark.Taut, Texts.Get("gears.cell.Taut"));
        return new(gear.Gear, found, words, LeftOf(gear), notUsed);
    }

    private static Mark MarkOf(FindingKind kind) =>
        kind switch
        {
            FindingKind.RubsNextRing or FindingKind.RubsFrontCage => Mark.Rubs,
            FindingKind.ShortInTravel => Mark.Short,
            FindingKind.SlackInTravel => Mark.Slack,
            _ => Mark.LookAt,
        };

    private static string LeftOf(in GearResult gear)
    {
        var angle = gear.ChainAngleRad * 180 / Math.PI;
        var reserve = Math.Min(gear.TightMarginMm, gear.LooseMarginMm);
        return double.IsFinite(reserve)
            ? Texts.Get("gears.cell.left", reserve, angle)
            : Texts.Get("gears.cell.leftAngle", angle);
    }
}
