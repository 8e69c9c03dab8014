using System.Collections.Immutable;

namespace Cogwright.Fastening;

/// <summary>Kinds of tool that tighten, from the surest to the least sure, as procedures ask for them.</summary>
public enum ToolKind
{
    /// <summary>It tells the torque (type I).</summary>
    IndicatingWrench,

    /// <summary>It is set to a torque, and clicks or slips (type II).</summary>
    SettingWrench,

    /// <summary>It has one setting for good (types II B and II E).</summary>
    PresetDriver,

    /// <summary>Any tool, by feel.</summary>
    HandTool,
}

/// <summary>
/// A class of hand torque tool by ISO 6789-1:2017, 4 (classification) and 5.1.5 (greatest permissible deviation). Immutable.
/// </summary>
/// <remarks>
/// Type I tells a torque, type II is set to one and clicks or slips. Permissible deviation: wrenches of types I B, I C and II A to
/// II C, and the driver I E, 4 % when their greatest torque is above 10 N·m, else 6 %; all others 6 %. Read for II A in a
/// hand-tool maker's review of the standard, for the others from memory.
/// </remarks>
public sealed record ToolClass
{
    /// <summary>Greatest torque up to which the wider deviation of small tools holds (N·m).</summary>
    public const double SmallToolNm = 10;

    private const double Narrow = 0.04;
    private const double Wide = 0.06;

    private ToolClass(string id, bool isSetting, bool isDriver, bool isFixed, bool isWideAlways)
    {
        Id = id;
        IsSetting = isSetting;
        IsDriver = isDriver;
        IsFixed = isFixed;
        IsWideAlways = isWideAlways;
    }

    /// <summary>Every class, in the order of the standard.</summary>
    public static ImmutableArray<ToolClass> All { get; } =
    [
        new("IA", false, false, false, true),
        new("IB", false, false, false, false),
        new("IC", false, false, false, false),
        new("ID", false, true, false, true),
        new("IE", false, true, false, false),
        new("IIA", true, false, false, false),
        new("IIB", true, false, true, false),
        new("IIC", true, false, false, false),
        new("IID", true, true, false, true),
        new("IIE", true, true, true, true),
        new("IIF", true, true, false, true),
        new("IIG", true, false, false, true),
    ];

    /// <summary>Type and class as files write it, such as <c>IIA</c>.</summary>
    public string Id { get; }

    /// <summary>Whether it is of type II: set to a torque, at which it clicks or slips; else it tells the torque.</summary>
    public bool IsSetting { get; }

    /// <summary>Whether it is a driver: it turns by a couple and has no lever.</summary>
    public bool IsDriver { get; }

    /// <summary>Whether it is set to one torque for good.</summary>
    public bool IsFixed { get; }

    /// <summary>Its kind.</summary>
    public ToolKind Kind =>
        IsFixed ? ToolKind.PresetDriver
        : IsSetting ? ToolKind.SettingWrench
        : ToolKind.IndicatingWrench;

    /// <summary>Whether it has no scale that the user sets it by: fixed, or set on a tester (II C, II F).</summary>
    public bool HasNoScale => IsFixed || Id is "IIC" or "IIF";

    /// <summary>What it is, in words.</summary>
    public string Title => Texts.Get($"class.{Id}");

    private bool IsWideAlways { get; }

    /// <summary>How procedures write a kind, such as <c>setting-wrench</c>; the names are stable.</summary>
    public static string NameOf(ToolKind kind) =>
        kind switch
        {
            ToolKind.IndicatingWrench => "indicating-wrench",
            ToolKind.SettingWrench => "setting-wrench",
            ToolKind.PresetDriver => "preset-driver",
            ToolKind.HandTool => "hand-tool",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, null),
        };

    /// <summary>The class of that name, or null; spaces and letter case do not matter.</summary>
    public static ToolClass? Find(string id)
    {
        ArgumentNullException.ThrowIfNull(id);
        var folded = id.Replace(" ", "", StringComparison.Ordinal);
        return All.FirstOrDefault(each =>
            each.Id.Equals(folded, StringComparison.OrdinalIgnoreCase)
        );
    }

    /// <summary>Greatest permissible deviation either way (a fraction: 0.04 or 0.06).</summary>
    /// <param name="maxNm">Greatest torque of the tool (N·m).</param>
    public double PermissibleDeviation(double maxNm) =>
        IsWideAlways || maxNm <= SmallToolNm ? Wide : Narrow;
}
