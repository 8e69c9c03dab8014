using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Drivetrain;

namespace Cogwright.Parts.Rules;

/// <summary>
/// The rules that ask the mechanism itself: what becomes of every gear with these parts on this frame. Each is judged from
/// the same gear table, so that a search can judge many builds without a word.
/// </summary>
internal sealed class MechanismRules
{
    /// <summary>Chain angle from which a gear is noisy and the chain may fall when back-pedalled (rad): 3.5°, common practice.</summary>
    internal static readonly double MostChainAngleRad = 3.5 * Math.PI / 180;

    /// <summary>Reserve of chain at either end that is comfortable (mm of chain).</summary>
    private const double ComfortableChainMm = 12.7;

    /// <summary>Gap beyond the part's least that is comfortable (mm).</summary>
    private const double ComfortableGapMm = 2;

    /// <summary>Room beyond the least to spokes or frame that is comfortable (mm).</summary>
    private const double ComfortableRoomMm = 2;

    /// <summary>How far the body-angle screw is thought to reach to either side when nobody has counted its turns (rad; from memory).</summary>
    private const double ScrewReachRad = 15 * Math.PI / 180;

    private const int ScrewSteps = 15;

    private static readonly ImmutableArray<PartKind> Mechanism =
    [
        PartKind.Rings,
        PartKind.Cassette,
        PartKind.RearDerailleur,
        PartKind.Cage,
        PartKind.Chain,
    ];

    private static readonly ImmutableArray<PartKind> Wheel =
    [
        PartKind.RearWheel,
        PartKind.Cassette,
        PartKind.RearDerailleur,
    ];

    private readonly DrivetrainSpec spec;
    private readonly Build build;
    private readonly ChainChoice choice;
    private readonly GearTable? table;
    private readonly ImmutableArray<Finding> findings;

    private MechanismRules(DrivetrainSpec spec, Build build)
    {
        this.spec = spec;
        this.build = build;
        choice = ChainChooser.Choose(spec, withSensitivity: false);
        table = spec.Chain.Pitches is { } pitches
            ? GearTableSolver.Solve(spec, pitches)
            : choice.Table;
        findings = table is null ? [] : Findings.Of(table);
    }

    /// <summary>The rules for a spec; it must be without <see cref="SpecCheck.Problems"/>.</summary>
    internal static MechanismRules Of(DrivetrainSpec spec, Build build) => new(spec, build);

    /// <summary>All answers, in no order.</summary>
    internal IEnumerable<RuleAnswer> Answers()
    {
        if (BoxedChain() is { } boxed)
        {
            yield return boxed;
        }
        foreach (var answer in Solved())
        {
            yield return answer;
        }
    }

    private IEnumerable<RuleAnswer> Solved()
    {
        yield return ChainLength();
        if (table is null)
        {
            yield break;
        }
        if (spec.RearDerailleur is not null)
        {
            yield return Gap(table);
        }
        yield return ChainAngle(table);
        if (spec.Rings.Length > 1)
        {
            yield return RingRubbing(table);
        }
        if (spec.RearDerailleur is not null)
        {
            foreach (var answer in Rooms(table))
            {
                yield return answer;
            }
        }
    }

    /// <summary>Kinds of part that none of these rules looks at, but for the length and width of the chain.</summary>
    internal static ImmutableArray<PartKind> Ignored { get; } =
    [
        PartKind.Chain,
        PartKind.BottomBracket,
        PartKind.FrontDerailleur,
        PartKind.RearShifter,
        PartKind.FrontShifter,
    ];

    /// <summary>The chain length that the mechanism asks for (pitches), or null when none serves.</summary>
    internal int? RecommendedPitches => choice.Numbers.Recommended;

    /// <summary>Whether a chain of that length as sold is long enough.</summary>
    internal static (Compatibility Answer, double Reserve) Boxed(double boxed, int needed) =>
        (boxed >= needed ? Compatibility.Yes : Compatibility.No, (boxed - needed) / 2);

    /// <summary>The worst answer, and the least reserve (NaN when nothing is measured), whatever length the chain is sold in.</summary>
    internal (Compatibility Answer, double Reserve) Worst()
    {
        var (worst, least) = (Compatibility.Yes, double.NaN);
        foreach (var answer in Solved())
        {
            worst = (Compatibility)Math.Min((int)worst, (int)answer.Answer);
            least = answer.Reserve is { } reserve && !(reserve >= least) ? reserve : least;
        }
        return (worst, least);
    }

    private RuleAnswer ChainLength()
    {
        // Locked out on the tight side the derailleur is torn; on the loose side the chain hangs.
        var leftOut = choice.LeftOut;
        var tight = Found(GearState.Short, FindingKind.ShortInTravel);
        var loose = Found(GearState.Slack, FindingKind.SlackInTravel);
        var least = table is null ? double.NaN : LeastMargin(table);
        var (answer, sentence, todo) = (
            choice.Status,
            leftOut.IsEmpty,
            tight.Length,
            loose.Length
        ) switch
        {
            (ChainChoiceStatus.NoGear, _, _, _) => (
                Compatibility.No,
                Texts.Get("mechanism.chain.none"),
                ""
            ),
            (_, false, _, _) => (
                Compatibility.No,
                Texts.Get(
                    "mechanism.chain.leftOut",
                    Explanation.List(leftOut.Select(l => l.Gear)),
                    Number(leftOut.Max(l => l.ShortfallMm), 1)
                ),
                ""
            ),
            (_, _, > 0, _) => (
                Compatibility.No,
                Texts.Get(
                    "mechanism.chain.short",
                    table!.Pitches,
                    Explanation.List(tight),
                    Number(-least / spec.Chain.PitchMm, 1)
                ),
                WhatToCut()
            ),
            (_, _, _, > 0) when choice.MissingPitches > 0 => (
                Compatibility.YesWith,
                Texts.Get(
                    "mechanism.chain.slack",
                    table!.Pitches,
                    Explanation.List(loose),
                    choice.MissingPitches
                ),
                Texts.Get("mechanism.chain.lockOut", Explanation.List(loose))
            ),
            (_, _, _, > 0) => (
                Compatibility.YesWith,
                Texts.Get("mechanism.chain.long", table!.Pitches, Explanation.List(loose)),
                WhatToCut()
            ),
            _ => (
                Compatibility.Yes,
                Texts.Get(
                    "mechanism.chain.yes",
                    table?.Pitches ?? choice.Numbers.BenchRule,
                    Number(least, 1)
                ),
                ""
            ),
        };
        return Answer(
            "mechanism-chain",
            answer,
            sentence,
            todo,
            answer == Compatibility.Yes ? least / ComfortableChainMm : double.NaN,
            Mechanism,
            AnswerView.Side,
            leftOut.IsEmpty ? FirstOf(tight) ?? FirstOf(loose) : leftOut[0].Gear
        );
    }

    private string WhatToCut() =>
        choice.Numbers.Recommended is { } length && length != table?.Pitches
            ? Texts.Get("mechanism.chain.cut", length)
            : "";

    /// <summary>The gears in that state where gaps are set, or in that trouble anywhere in the travel.</summary>
    private ImmutableArray<Gear> Found(GearState state, FindingKind inTravel) =>
        table is null
            ? []
            :
            [
                .. findings
                    .Where(finding =>
                        !finding.NotUsed
                        && (
                            finding.Kind == inTravel
                            || (
                                finding.Kind == FindingKind.State
                                && table.Find(finding.Gear)?.State == state
                            )
                        )
                    )
                    .Select(finding => finding.Gear),
            ];

    private RuleAnswer? BoxedChain()
    {
        if (
            build[PartKind.Chain]?.Number(PartFields.BoxedPitches) is not { } boxed
            || choice.Numbers.Recommended is not { } needed
        )
        {
            return null;
        }
        var room = boxed - needed;
        var (answer, reserve) = Boxed(boxed, needed);
        return Answer(
            "mechanism-boxed",
            answer,
            Texts.Get(
                room >= 0 ? "mechanism.boxed.yes" : "mechanism.boxed.no",
                Number(boxed, 0),
                needed,
                Number(Math.Abs(room), 0)
            ),
            room >= 0 ? "" : Texts.Get("mechanism.boxed.do"),
            reserve,
            [PartKind.Chain],
            AnswerView.None,
            null
        );
    }

    private RuleAnswer Gap(GearTable table)
    {
        var derailleur = spec.RearDerailleur!;
        var (least, gear) = LeastGap(table);
        var answer = Compatibility.Yes;
        var setGap = double.NaN;
        if (double.IsNaN(least))
        {
            answer = Compatibility.CannotSay;
        }
        else if (least < derailleur.LeastGapMm)
        {
            (answer, least, setGap) = Turned(table, least, gear);
        }
        var room = least - derailleur.LeastGapMm;
        var sentence = answer switch
        {
            Compatibility.CannotSay => Texts.Get("mechanism.gap.ask"),
            Compatibility.Yes => Texts.Get(
                "mechanism.gap.yes",
                Number(least, 1),
                Explanation.List([gear]),
                Number(derailleur.LeastGapMm, 1)
            ),
            Compatibility.YesWith => Texts.Get(
                "mechanism.gap.with",
                Number(derailleur.LeastGapMm, 1)
            ),
            _ => Texts.Get(
                "mechanism.gap.no",
                Number(-room, 1),
                Explanation.List([gear]),
                Number(derailleur.LeastGapMm, 1)
            ),
        };
        return Answer(
            "mechanism-gap",
            answer,
            sentence,
            answer == Compatibility.YesWith
                ? Texts.Get("mechanism.gap.do", Number(setGap, 1), Explanation.List([SetUpGear()]))
                : "",
            answer is Compatibility.Yes or Compatibility.YesWith
                ? room / ComfortableGapMm
                : double.NaN,
            Mechanism,
            AnswerView.Side,
            double.IsNaN(least) ? null : gear
        );
    }

    /// <summary>
    /// What the body-angle screw can do about a gap that is too small: the nearest angle at which every gap is at least the
    /// part's, the least gap there and the gap in the set-up gear.
    /// </summary>
    private (Compatibility Answer, double LeastMm, double SetGapMm) Turned(
        GearTable table,
        double asItIsMm,
        Gear tightest
    )
    {
        var derailleur = spec.RearDerailleur!;
        if (derailleur.Coaxial is not null)
        {
            return (Compatibility.No, asItIsMm, double.NaN);
        }
        var best = asItIsMm;
        for (var step = 1; step <= ScrewSteps; step++)
        {
            foreach (var sign in (ReadOnlySpan<int>)[1, -1])
            {
                var angle = table.BodyAngleRad + (sign * step * ScrewReachRad / ScrewSteps);
                // The gear with the least gap says soonest that it is not enough.
                var first = GearTableSolver.SolveOne(spec, table.Pitches, tightest, angle);
                var there = LeastGap(first).Mm;
                if (!(there >= derailleur.LeastGapMm))
                {
                    best = Math.Max(best, double.IsNaN(there) ? best : there);
                    continue;
                }
                var turned = GearTableSolver.Solve(spec, table.Pitches, angle);
                if (turned.Gears.Any(g => g.State != GearState.Ok && !IsNotUsed(g.Gear)))
                {
                    continue;
                }
                var least = LeastGap(turned).Mm;
                if (least >= derailleur.LeastGapMm)
                {
                    return (
                        Compatibility.YesWith,
                        least,
                        turned.Find(SetUpGear())?.GapMm ?? double.NaN
                    );
                }
                best = Math.Max(best, least);
            }
        }
        return (Compatibility.No, best, double.NaN);
    }

    private RuleAnswer ChainAngle(GearTable table)
    {
        var beyond = Gears(table, gear => gear.HasReach && gear.ChainAngleRad > MostChainAngleRad);
        var worst = table.Gears[0];
        var most = 0.0;
        foreach (var gear in table.Gears)
        {
            if (gear.HasReach && !IsNotUsed(gear.Gear) && gear.ChainAngleRad > most)
            {
                (most, worst) = (gear.ChainAngleRad, gear);
            }
        }
        var degrees = Number(most * 180 / Math.PI, 1);
        var limit = Number(MostChainAngleRad * 180 / Math.PI, 1);
        return beyond.Length == 0
            ? Answer(
                "mechanism-chain-angle",
                Compatibility.Yes,
                Texts.Get("mechanism.angle.yes", degrees, Explanation.List([worst.Gear]), limit),
                "",
                (MostChainAngleRad - most) / MostChainAngleRad * 2,
                [PartKind.Crank, PartKind.Rings, PartKind.RearWheel, PartKind.Cassette],
                AnswerView.Top,
                worst.Gear
            )
            : Answer(
                "mechanism-chain-angle",
                Compatibility.YesWith,
                Texts.Get("mechanism.angle.with", degrees, Explanation.List([worst.Gear]), limit),
                Texts.Get("mechanism.angle.do", Explanation.List(beyond)),
                double.NaN,
                [PartKind.Crank, PartKind.Rings, PartKind.RearWheel, PartKind.Cassette],
                AnswerView.Top,
                worst.Gear
            );
    }

    private RuleAnswer RingRubbing(GearTable table)
    {
        var (least, at) = (double.NaN, table.Gears[0].Gear);
        var rubbing = ImmutableArray.CreateBuilder<Gear>();
        foreach (var gear in table.Gears)
        {
            var room = RingRub.ClearanceMm(spec, gear);
            if (double.IsNaN(room) || IsNotUsed(gear.Gear))
            {
                continue;
            }
            if (room < 0)
            {
                rubbing.Add(gear.Gear);
            }
            if (double.IsNaN(least) || room < least)
            {
                (least, at) = (room, gear.Gear);
            }
        }
        ImmutableArray<PartKind> kinds = [PartKind.Crank, PartKind.Rings, PartKind.Cassette];
        if (double.IsNaN(least))
        {
            return Answer(
                "mechanism-ring-rub",
                Compatibility.CannotSay,
                Texts.Get("mechanism.rub.ask"),
                Texts.Get("rule.lookUp"),
                double.NaN,
                kinds,
                AnswerView.None,
                null
            );
        }
        return rubbing.Count == 0
            ? Answer(
                "mechanism-ring-rub",
                Compatibility.Yes,
                Texts.Get("mechanism.rub.yes", Number(least, 1), Explanation.List([at])),
                "",
                least / ComfortableRoomMm * 2,
                kinds,
                AnswerView.Top,
                at
            )
            : Answer(
                "mechanism-ring-rub",
                Compatibility.YesWith,
                Texts.Get("mechanism.rub.with", Number(-least, 1), Explanation.List([at])),
                Texts.Get("mechanism.rub.do", Explanation.List(rubbing)),
                double.NaN,
                kinds,
                AnswerView.Top,
                at
            );
    }

    private IEnumerable<RuleAnswer> Rooms(GearTable table)
    {
        var report = SpokeClearance.Of(table);
        var groups = report
            .All.Where(c => c.Kind is not (ClearanceKind.CageKnocked or ClearanceKind.CageTilted))
            .GroupBy(c => c.Kind == ClearanceKind.ChainOnSmallestCog);
        foreach (var group in groups)
        {
            // The worst of the kind, and of two alike the one with the least room.
            var clearance = group
                .OrderBy(c => RankOf(c.Verdict))
                .ThenBy(c => (c.Mm - c.LeastMm) ?? 0)
                .First();
            var words = LateralWords.Of(clearance, report);
            yield return Answer(
                group.Key ? "mechanism-frame" : "mechanism-spokes",
                clearance.Verdict switch
                {
                    ClearanceVerdict.Touches => Compatibility.No,
                    ClearanceVerdict.Close => Compatibility.YesWith,
                    ClearanceVerdict.CannotSay => Compatibility.CannotSay,
                    _ => Compatibility.Yes,
                },
                words.What,
                words.WhatToDo,
                clearance.Mm is { } room
                    ? (room - clearance.LeastMm) / ComfortableRoomMm
                    : double.NaN,
                group.Key ? [PartKind.Frame, PartKind.RearWheel, PartKind.Cassette] : Wheel,
                AnswerView.Top,
                clearance.Gear
            ) with
            {
                RestsOnAssumed = !clearance.Assumed.IsEmpty,
            };
        }
    }

    private static int RankOf(ClearanceVerdict verdict) =>
        verdict switch
        {
            ClearanceVerdict.Touches => 0,
            ClearanceVerdict.CannotSay => 1,
            ClearanceVerdict.Close => 2,
            _ => 3,
        };

    private (double Mm, Gear Gear) LeastGap(GearTable table)
    {
        var (least, at) = (double.NaN, table.Gears[0].Gear);
        foreach (var gear in table.Gears)
        {
            if (!gear.HasPose || IsNotUsed(gear.Gear))
            {
                continue;
            }
            var gap = double.IsNaN(gear.GapToNextMm)
                ? gear.GapMm
                : Math.Min(gear.GapMm, gear.GapToNextMm);
            if (double.IsNaN(least) || gap < least)
            {
                (least, at) = (gap, gear.Gear);
            }
        }
        return (least, at);
    }

    private double LeastMargin(GearTable table)
    {
        var least = double.PositiveInfinity;
        foreach (var gear in table.Gears)
        {
            if (gear.HasReach && !IsNotUsed(gear.Gear))
            {
                least = Math.Min(least, Math.Min(gear.TightMarginMm, gear.LooseMarginMm));
            }
        }
        // What happens elsewhere in the travel is worse than where gaps are set.
        foreach (var finding in findings)
        {
            least = finding switch
            {
                { NotUsed: true } => least,
                { Kind: FindingKind.ShortInTravel or FindingKind.SlackInTravel } => Math.Min(
                    least,
                    -finding.ValueMm
                ),
                { Kind: FindingKind.LittleTightMargin or FindingKind.LittleLooseMargin } =>
                    Math.Min(least, finding.ValueMm),
                _ => least,
            };
        }
        return double.IsPositiveInfinity(least) ? double.NaN : least;
    }

    /// <summary>The gear in which the gap is set: the smallest ring with the largest cog.</summary>
    private Gear SetUpGear() => new(spec.Rings.Min(r => r.Teeth), spec.Cogs.Teeth[^1]);

    private ImmutableArray<Gear> Gears(GearTable table, Func<GearResult, bool> which) =>
        [.. table.Gears.Where(g => !IsNotUsed(g.Gear) && which(g)).Select(g => g.Gear)];

    private bool IsNotUsed(Gear gear) => spec.GearsNotUsed.Contains(gear);

    private static Gear? FirstOf(ImmutableArray<Gear> gears) => gears.IsEmpty ? null : gears[0];

    private static string Number(double value, int decimals) =>
        double.IsNaN(value)
            ? "–"
            : Math.Round(value, decimals).ToString("0.##", CultureInfo.InvariantCulture);

    private RuleAnswer Answer(
        string id,
        Compatibility answer,
        string sentence,
        string whatToDo,
        double reserve,
        ImmutableArray<PartKind> kinds,
        AnswerView view,
        Gear? gear
    ) =>
        new()
        {
            RuleId = id,
            Title = Texts.Get($"rule.{id}"),
            Answer = answer,
            Sentence = sentence,
            WhatToDo = whatToDo,
            Source = Texts.Get($"rule.{id}.source"),
            Reserve = double.IsNaN(reserve) ? null : reserve,
            Kinds = kinds,
            View = view,
            Gear = gear,
            MayBeAccepted = id is not ("mechanism-chain" or "mechanism-spokes"),
            RestsOnAssumed = spec.Assumptions.Any(a =>
                a.Path.StartsWith("rearDerailleur.", StringComparison.Ordinal)
                || a.Path.StartsWith("hanger.", StringComparison.Ordinal)
                || a.Path.StartsWith("frame.", StringComparison.Ordinal)
            ),
            // Not the sentence: the ground is the same in every language.
            Ground = GroundDigest.Of([
                .. kinds.Select(kind => build[kind]?.Id ?? ""),
                answer.ToString(),
                Number(reserve, 1),
                gear?.ToString() ?? "",
            ]),
        };
}
