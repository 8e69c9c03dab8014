using System.Collections.Immutable;

namespace Cogwright.Fastening;

/// <summary>Whether a tool suits a task, the best first.</summary>
public enum Suitability
{
    /// <summary>It suits.</summary>
    Suits,

    /// <summary>It may be used, with what the reasons say in mind.</summary>
    WithCare,

    /// <summary>It does not suit.</summary>
    DoesNotSuit,
}

/// <summary>Why a tool suits or not.</summary>
public enum ToolReasonKind
{
    /// <summary>Where it is set and what the fastener then gets; stands first when there is a setting.</summary>
    Setting,

    /// <summary>All that is asked lies below its scale.</summary>
    BelowScale,

    /// <summary>All that is asked lies above its scale.</summary>
    AboveScale,

    /// <summary>Below 20 % of its greatest torque, where it is not checked.</summary>
    BelowChecked,

    /// <summary>Its deviation is wider than the tolerance.</summary>
    TooCoarse,

    /// <summary>One figure without a tolerance: what the deviation may be is not known.</summary>
    NoTolerance,

    /// <summary>No mark of its scale lies in what is asked.</summary>
    NoMark,

    /// <summary>Its one fixed setting is not what is asked.</summary>
    FixedElsewhere,

    /// <summary>It must be set on a tester first.</summary>
    NeedsTester,

    /// <summary>Its calibration is past.</summary>
    Overdue,

    /// <summary>Its calibration is due soon.</summary>
    DueSoon,

    /// <summary>Nobody knows when it was calibrated.</summary>
    CalibrationUnknown,

    /// <summary>It was calibrated on a day that is still to come.</summary>
    CalibratedInFuture,

    /// <summary>It works clockwise only, and the thread is left-handed.</summary>
    OneWay,

    /// <summary>The procedure asks for a surer kind of tool.</summary>
    LessSureThanAsked,

    /// <summary>A driver cannot turn an adapter that stands out sideways.</summary>
    DriverHasNoLever,

    /// <summary>Its arm is not known, and with this adapter it counts.</summary>
    ArmUnknown,

    /// <summary>The adapter, turned back over it, leaves it no arm.</summary>
    NoArmLeft,

    /// <summary>With this adapter the hand must be in one place.</summary>
    HandPlace,
}

/// <summary>One reason. Immutable.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Weight">What it makes of the tool.</param>
/// <param name="Sentence">In words, with what to do.</param>
public sealed record ToolReason(ToolReasonKind Kind, Suitability Weight, string Sentence);

/// <summary>What comes of a tool for a task. Immutable.</summary>
public sealed record ToolAnswer
{
    /// <summary>The tool.</summary>
    public required TorqueTool Tool { get; init; }

    /// <summary>What it is set to, or where a telling tool is stopped (N·m); null when it can give nothing that is asked.</summary>
    public double? SettingNm { get; init; }

    /// <summary>Least that the fastener then gets, by the tool's deviation (N·m), or null.</summary>
    public double? LeastNm { get; init; }

    /// <summary>Greatest that the fastener then gets, by the tool's deviation (N·m), or null.</summary>
    public double? MostNm { get; init; }

    /// <summary>Why: the setting first, then the worst first.</summary>
    public required ImmutableArray<ToolReason> Reasons { get; init; }

    /// <summary>Whether it suits: as its worst reason says.</summary>
    public Suitability Suitability
    {
        get
        {
            var worst = Suitability.Suits;
            foreach (var reason in Reasons)
            {
                if (reason.Weight > worst)
                {
                    worst = reason.Weight;
                }
            }
            return worst;
        }
    }

    /// <summary>How wide what the fastener gets is spread (N·m), or null without a setting.</summary>
    public double? SpreadNm => MostNm - LeastNm;
}
