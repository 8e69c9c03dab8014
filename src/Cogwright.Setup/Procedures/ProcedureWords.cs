using System.Collections.Immutable;
using Cogwright.Fastening;
using Cogwright.Parts;

namespace Cogwright.Setup.Procedures;

/// <summary>The closed lists of names that a procedure may use. They are stable: files use them.</summary>
public static class ProcedureWords
{
    /// <summary>What a step can be done on: every kind of part, and what of a bike is none.</summary>
    public static ImmutableArray<string> Parts { get; } =
    [
        .. PartKinds.All.Select(PartKinds.NameOf),
        "bike",
        "battery",
        "brakes",
        "cable",
        "fasteners",
        "housing",
        "quickLink",
        "rearAxle",
        "shock",
    ];

    /// <summary>What a step can set.</summary>
    public static ImmutableArray<string> Adjusters { get; } =
    [
        "barrel-adjuster",
        "body-angle",
        "chain-length",
        "front-angle",
        "front-cable",
        "front-height",
        "front-inboard-stop",
        "front-outboard-stop",
        "hanger",
        "inboard-stop",
        "offset-step",
        "outboard-stop",
        "rear-cable",
    ];

    /// <summary>Kinds of tool that tighten, from the surest to the least sure.</summary>
    public static ImmutableArray<string> ToolClasses { get; } =
    [.. Enum.GetValues<ToolKind>().Select(ToolClass.NameOf)];

    /// <summary>How a thread is treated before it is tightened.</summary>
    public static ImmutableArray<string> ThreadTreatments { get; } =
    [.. ThreadTreatment.All.Select(treatment => treatment.Id)];
}
