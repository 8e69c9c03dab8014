using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <summary>States of a gear in the words of the model's own explanations.</summary>
internal static class GearWords
{
    /// <summary>The state of a gear in words.</summary>
    internal static string State(GearResult gear, DrivetrainSpec spec) =>
        Explanation.Of(gear, spec) is { } explanation
            ? $"{explanation.What} {explanation.WhatToDo}"
            : Texts.Get("state.ok");

    /// <summary>Why a gear cannot be used, without what to do about it.</summary>
    internal static string? Reason(GearResult gear, DrivetrainSpec spec) =>
        Explanation.Of(gear, spec)?.What;

    /// <summary>Why a gear was left out of the chain choice.</summary>
    internal static string? Reason(LeftOutGear gear, DrivetrainSpec spec) =>
        Reason(
            new GearResult
            {
                Gear = gear.Gear,
                RingIndex = 0,
                CogIndex = 0,
                State = gear.State,
                Blame = gear.Blame,
                ShortfallMm = gear.ShortfallMm,
            },
            spec
        );

    /// <summary>What is worth a look in each gear beside its state.</summary>
    internal static ILookup<Gear, string> Findings(GearTable table) =>
        Drivetrain
            .Findings.Of(table)
            .Where(finding => finding.Kind is not FindingKind.State)
            .ToLookup(finding => finding.Gear, finding => Words(finding, table.Spec));

    private static string Words(Finding finding, DrivetrainSpec spec)
    {
        var explanation = Explanation.Of(finding, spec);
        return $"{explanation.What} {explanation.WhatToDo}";
    }
}
