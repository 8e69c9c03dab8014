using System.Collections.Immutable;

namespace Cogwright.Fastening;

/// <summary>
/// Which of the shop's tools suits a fastener, why, and what it is set to: a tool is set so that with its whole deviation the
/// fastener gets what is asked. Which reasons weigh how much is common practice.
/// </summary>
public static class ToolChoice
{
    // N·m, far below any scale: a mark is not missed because 0.1 has no exact double.
    private const double Slack = 1e-9;

    /// <summary>Every tool, the best first: by what suits, then by the least spread at the fastener, then by name.</summary>
    /// <param name="task">What is to be done.</param>
    /// <param name="tools">The shop's tools, each without a problem.</param>
    /// <param name="today">The day of the work, for the calibrations.</param>
    /// <exception cref="ArgumentException">A tool cannot be (<see cref="TorqueToolCheck"/> says the same without throwing).</exception>
    public static ImmutableArray<ToolAnswer> Rank(
        TighteningTask task,
        ImmutableArray<TorqueTool> tools,
        DateOnly today
    ) =>
        [
            .. tools
                .Select(tool => Judge(task, tool, today))
                .OrderBy(answer => answer.Suitability)
                .ThenBy(answer => answer.SpreadNm ?? double.PositiveInfinity)
                .ThenBy(answer => answer.Tool.Name, StringComparer.Ordinal),
        ];

    /// <summary>What comes of one tool.</summary>
    /// <param name="task">What is to be done.</param>
    /// <param name="tool">The tool, without a problem.</param>
    /// <param name="today">The day of the work.</param>
    /// <exception cref="ArgumentException">The tool cannot be.</exception>
    public static ToolAnswer Judge(TighteningTask task, TorqueTool tool, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(task);
        ArgumentNullException.ThrowIfNull(tool);
        if (TorqueToolCheck.Problems(tool) is [var first, ..])
        {
            throw new ArgumentException($"{first.Field}: {first.Message}", nameof(tool));
        }
        var reasons = new List<ToolReason>();
        void Add(ToolReasonKind kind, Suitability weight, string sentence) =>
            reasons.Add(new(kind, weight, sentence));

        AddCalibration(tool, today, Add);
        if (task.IsLeftHand && !tool.WorksLeftHand)
        {
            Add(ToolReasonKind.OneWay, Suitability.DoesNotSuit, Texts.Get("reason.OneWay"));
        }
        if (tool.Class.Kind > task.LeastSure)
        {
            Add(
                ToolReasonKind.LessSureThanAsked,
                Suitability.WithCare,
                Texts.Get(
                    "reason.LessSureThanAsked",
                    ToolClass.NameOf(task.LeastSure.Value),
                    ToolClass.NameOf(tool.Class.Kind)
                )
            );
        }
        double? setting = null;
        double? least = null;
        double? most = null;
        if (
            FactorOf(task, tool, Add) is { } factor
            && SettingOf(task, tool, factor, Add) is { } set
        )
        {
            setting = set;
            least = ToolDeviation.LeastNm(set * factor, tool.Deviation);
            most = ToolDeviation.MostNm(set * factor, tool.Deviation);
            AddSetting(task, tool, (set, least.Value, most.Value), Add);
        }
        return new()
        {
            Tool = tool,
            SettingNm = setting,
            LeastNm = least,
            MostNm = most,
            Reasons =
            [
                .. reasons
                    .OrderBy(reason => reason.Kind == ToolReasonKind.Setting ? 0 : 1)
                    .ThenByDescending(reason => reason.Weight),
            ],
        };
    }

    private static void AddCalibration(
        TorqueTool tool,
        DateOnly today,
        Action<ToolReasonKind, Suitability, string> add
    )
    {
        var until = tool.Calibration.Until;
        switch (tool.Calibration.At(today))
        {
            case CalibrationState.Overdue when until <= today:
                add(
                    ToolReasonKind.Overdue,
                    Suitability.DoesNotSuit,
                    Texts.Get("reason.Overdue.date", until)
                );
                break;
            case CalibrationState.Overdue:
                add(
                    ToolReasonKind.Overdue,
                    Suitability.DoesNotSuit,
                    Texts.Get(
                        "reason.Overdue.uses",
                        tool.Calibration.UsesSince,
                        tool.Calibration.Uses
                    )
                );
                break;
            case CalibrationState.DueSoon:
                add(ToolReasonKind.DueSoon, Suitability.Suits, Texts.Get("reason.DueSoon", until));
                break;
            case CalibrationState.Unknown:
                add(
                    ToolReasonKind.CalibrationUnknown,
                    Suitability.WithCare,
                    Texts.Get("reason.CalibrationUnknown")
                );
                break;
            case CalibrationState.InFuture:
                add(
                    ToolReasonKind.CalibratedInFuture,
                    Suitability.DoesNotSuit,
                    Texts.Get("reason.CalibratedInFuture", tool.Calibration.On, today)
                );
                break;
            default:
                break;
        }
    }

    // What the fastener gets for each N·m that the tool tells, or null when this cannot be known.
    private static double? FactorOf(
        TighteningTask task,
        TorqueTool tool,
        Action<ToolReasonKind, Suitability, string> add
    )
    {
        var adapter = task.Adapter;
        if (tool.Class.IsDriver && adapter.LengthMm > 0)
        {
            add(
                ToolReasonKind.DriverHasNoLever,
                Suitability.DoesNotSuit,
                Texts.Get("reason.DriverHasNoLever")
            );
            return null;
        }
        if (adapter.InLineMm == 0)
        {
            return 1;
        }
        if (tool.ArmMm is not { } arm)
        {
            add(ToolReasonKind.ArmUnknown, Suitability.DoesNotSuit, Texts.Get("reason.ArmUnknown"));
            return null;
        }
        if (!adapter.LeavesArm(arm))
        {
            add(
                ToolReasonKind.NoArmLeft,
                Suitability.DoesNotSuit,
                Texts.Get("adapter.noArm", adapter.LengthMm, arm)
            );
            return null;
        }
        add(ToolReasonKind.HandPlace, Suitability.Suits, Texts.Get("reason.HandPlace", arm));
        return adapter.Factor(arm);
    }

    // Where the tool is set, or null when nothing that it can be set to is what is asked.
    private static double? SettingOf(
        TighteningTask task,
        TorqueTool tool,
        double factor,
        Action<ToolReasonKind, Suitability, string> add
    )
    {
        var (lower, upper) = Allowed(task.Range, tool, factor);
        if (tool.Class.IsFixed)
        {
            if (tool.MaxNm >= lower - Slack && tool.MaxNm <= upper + Slack)
            {
                return tool.MaxNm;
            }
            add(
                ToolReasonKind.FixedElsewhere,
                Suitability.DoesNotSuit,
                Texts.Get(
                    "reason.FixedElsewhere",
                    tool.OnScale(tool.MaxNm),
                    tool.OnScale(lower),
                    tool.OnScale(upper)
                )
            );
            return null;
        }
        if (upper < tool.LeastNm - Slack || lower > tool.MaxNm + Slack)
        {
            var isBelow = upper < tool.LeastNm;
            add(
                isBelow ? ToolReasonKind.BelowScale : ToolReasonKind.AboveScale,
                Suitability.DoesNotSuit,
                isBelow
                    ? Texts.Get(
                        "reason.BelowScale",
                        tool.OnScale(tool.LeastNm),
                        tool.OnScale(upper)
                    )
                    : Texts.Get("reason.AboveScale", tool.OnScale(tool.MaxNm), tool.OnScale(lower))
            );
            return null;
        }
        lower = Math.Max(lower, tool.LeastNm);
        upper = Math.Min(upper, tool.MaxNm);
        var aim = Math.Clamp(Aim(task.Range, tool.Deviation) / factor, lower, upper);
        if (tool.GraduationNm is not { } step || tool.Class.HasNoScale)
        {
            return aim;
        }
        // Beside the aim the mark with which the whole deviation keeps to the range, though another may lie nearer.
        var (least, most) = Keeping(task.Range, tool.Deviation, factor);
        if (
            (
                MarkNear(aim, step, Math.Max(lower, least), Math.Min(upper, most))
                ?? MarkNear(aim, step, lower, upper)
            ) is
            { } mark
        )
        {
            return mark;
        }
        if (!tool.Class.IsSetting)
        {
            // A pointer may be stopped between two marks.
            return aim;
        }
        add(
            ToolReasonKind.NoMark,
            Suitability.DoesNotSuit,
            Texts.Get("reason.NoMark", tool.OnScale(lower), tool.OnScale(upper), tool.OnScale(step))
        );
        return null;
    }

    // What the tool may tell for the fastener to get what is asked. One figure without tolerance may be a printed maximum: a tool
    // is not set above it, and below it by no more than the tool itself can tell.
    private static (double Lower, double Upper) Allowed(
        TorqueRange range,
        TorqueTool tool,
        double factor
    ) =>
        range.IsSingleFigure
            ? (range.LowerNm * (1 - tool.Deviation) / factor, range.UpperNm / factor)
            : (range.LowerNm / factor, range.UpperNm / factor);

    // What the tool may tell for the whole of its deviation to keep to what is asked; the wrong way round when nothing does.
    private static (double Least, double Most) Keeping(
        TorqueRange range,
        double deviation,
        double factor
    ) => (range.LowerNm * (1 + deviation) / factor, range.UpperNm * (1 - deviation) / factor);

    // The middle of what is asked, where the whole deviation keeps to it; else the middle of all settings that do, and of a tool
    // that has none the one that strays as far above as below.
    private static double Aim(TorqueRange range, double deviation) =>
        ToolDeviation.LeastNm(range.MiddleNm, deviation) >= range.LowerNm
            && ToolDeviation.MostNm(range.MiddleNm, deviation) <= range.UpperNm
        || range.IsSingleFigure
            ? range.MiddleNm
            : ((range.LowerNm * (1 + deviation)) + (range.UpperNm * (1 - deviation))) / 2;

    // The mark nearest to the aim among those allowed.
    private static double? MarkNear(double aim, double step, double lower, double upper)
    {
        double? nearest = null;
        foreach (
            var count in (ReadOnlySpan<double>)[Math.Floor(aim / step), Math.Ceiling(aim / step)]
        )
        {
            // Rounded, so that 90 steps of 0.1 are 9 and not 9.000000000000002.
            var mark = Math.Round(count * step, 9);
            if (
                mark >= lower - Slack
                && mark <= upper + Slack
                && !(Math.Abs(mark - aim) >= Math.Abs((nearest ?? double.MaxValue) - aim))
            )
            {
                nearest = mark;
            }
        }
        return nearest;
    }

    private static void AddSetting(
        TighteningTask task,
        TorqueTool tool,
        (double SettingNm, double LeastNm, double MostNm) at,
        Action<ToolReasonKind, Suitability, string> add
    )
    {
        add(
            ToolReasonKind.Setting,
            Suitability.Suits,
            Texts.Get(
                tool.Class.IsSetting ? "reason.Setting" : "reason.Setting.tells",
                tool.OnScale(at.SettingNm),
                100 * at.SettingNm / tool.MaxNm,
                at.LeastNm,
                at.MostNm,
                100 * tool.Deviation
            )
        );
        if (
            !tool.Class.IsFixed
            && at.SettingNm < (TorqueToolCheck.LeastCheckedShare * tool.MaxNm) - Slack
        )
        {
            add(
                ToolReasonKind.BelowChecked,
                Suitability.WithCare,
                Texts.Get(
                    "reason.BelowChecked",
                    tool.OnScale(at.SettingNm),
                    100 * TorqueToolCheck.LeastCheckedShare,
                    tool.OnScale(tool.MaxNm)
                )
            );
        }
        if (task.Range.IsSingleFigure)
        {
            add(
                ToolReasonKind.NoTolerance,
                Suitability.Suits,
                Texts.Get("reason.NoTolerance", task.Range.LowerNm)
            );
        }
        else if (at.LeastNm < task.Range.LowerNm - Slack || at.MostNm > task.Range.UpperNm + Slack)
        {
            add(
                ToolReasonKind.TooCoarse,
                Suitability.WithCare,
                Texts.Get(
                    "reason.TooCoarse",
                    at.LeastNm,
                    at.MostNm,
                    task.Range.LowerNm,
                    task.Range.UpperNm
                )
            );
        }
        if (tool.Class is { HasNoScale: true, IsFixed: false })
        {
            add(
                ToolReasonKind.NeedsTester,
                Suitability.WithCare,
                Texts.Get("reason.NeedsTester", tool.OnScale(at.SettingNm))
            );
        }
    }
}
