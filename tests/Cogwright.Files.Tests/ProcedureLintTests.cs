using Cogwright.Setup.Procedures.Lint;

namespace Cogwright.Files.Tests;

/// <summary>Each rule alone: one change to a procedure that breaks none, one finding, at the place of the change.</summary>
public sealed class ProcedureLintTests
{
    private static readonly string Good = Repository.Text("testdata/cases/procedures/good.yaml");

    /// <summary>Rule, what stands in the good file, what stands there instead, and text at the place of the finding.</summary>
    public static TheoryData<string, string, string, string> Breaks =>
        new()
        {
            {
                "id-twice",
                "- {id: wrench, name: Torque wrench}",
                "- {id: wrench, name: Torque wrench}\n  - {id: caliper, name: Another}",
                "caliper, name: Another"
            },
            { "reference-unknown", "steps: [prove]", "steps: [prove, nobody]", "nobody" },
            { "reference-unknown", "readings: [hanger]", "readings: [hanger, nothing]", "nothing" },
            { "reference-unknown", "handsOver: [gap]", "handsOver: [gap, lost]", "lost" },
            {
                "reference-unknown",
                "        avoidance: Keep away from it.",
                "        avoidance: Keep away from it.\n        about: nowhere",
                "nowhere"
            },
            {
                "reference-unknown",
                "        avoidance: Stop when it resists.",
                "        avoidance: Stop when it resists.\n        act: cut-chain",
                "cut-chain"
            },
            {
                "reference-vague",
                "Read the index again afterwards.",
                "Read the index as above.",
                "Read the index as above."
            },
            { "tool-not-listed", "uses: [caliper]", "uses: [caliper, pick]", "pick" },
            {
                "tool-not-used",
                "  - {id: grease, name: Assembly grease}",
                "  - {id: grease, name: Assembly grease}\n  - {id: oil, name: Oil}",
                "{id: oil, name: Oil}"
            },
            { "skill-missing", "skill: Can read a caliper.\n", "", "format" },
            {
                "dependency-cycle",
                "    dependsOn: {steps: [mount]}",
                "    dependsOn: {steps: [mount, prove]}",
                "dependsOn: {steps: [mount, prove]}"
            },
            {
                "depends-on-later",
                "    dependsOn: {steps: [mount]}",
                "    dependsOn: {steps: [mount, read]}",
                "dependsOn: {steps: [mount, read]}"
            },
            {
                "result-unused",
                "dependsOn: {steps: [rough], readings: [hanger]}",
                "dependsOn: {steps: [rough]}",
                "hanger\n  - id: prove"
            },
            {
                "condition-never-true",
                "    action: Set the gap",
                "    action: Set the gap\n    blockedUntil: [damper-off]",
                "damper-off"
            },
            {
                "condition-cleared",
                "    makes: [inboard-stop-proven-by-hand]\n    check:\n      quantity: inboard-stop-proven\n      expected: The cage",
                "    makes: [inboard-stop-proven-by-hand]\n    clears: [drive-battery-out]\n    check:\n      quantity: inboard-stop-proven\n      expected: The cage",
                "drive-battery-out, inboard-stop"
            },
            {
                "proof-lapsed",
                "    makes: [inboard-stop-proven-by-hand]\n    check:\n      quantity: inboard-stop-proven\n      expected: It",
                "    check:\n      quantity: inboard-stop-proven\n      expected: It",
                "gap\n    action"
            },
            {
                "proof-lapsed",
                "    note: Read the index again afterwards.",
                "    makes: [chain-joint-loaded]\n  - id: open\n    action: Open the chain\n    part: chain\n    makes: [chain-off]",
                "open\n    action"
            },
            {
                "adjusts-without-state",
                "    adjusts: [body-angle]\n    state: final\n",
                "    adjusts: [body-angle]\n",
                "adjusts: [body-angle]"
            },
            {
                "rough-left",
                "    adjusts: [body-angle]\n    state: final",
                "    adjusts: [body-angle]\n    state: rough",
                "rough\n    uses: [caliper]"
            },
            {
                "final-too-soon",
                "readings: [gap]}\n    adjusts: [inboard-stop]",
                "readings: [gap]}\n    adjusts: [offset-step]",
                "final\n    makes: [inboard"
            },
            {
                "final-without-check",
                "    acts: [turn-cranks",
                "    adjusts: [front-cable]\n    state: final\n    acts: [turn-cranks",
                "final\n    acts"
            },
            {
                "warning-after-step",
                "    note: Read the index again afterwards.",
                "    note: \"CAUTION: the chain moves.\"",
                "\"CAUTION"
            },
            {
                "warning-after-step",
                "        avoidance: Keep away from it.",
                "        avoidance: Keep away from it.\n        about: read",
                "read\n        act"
            },
            {
                "warning-after-step",
                "    action: Set the gap\n    part: rearDerailleur\n",
                "    action: Set the gap\n    part: rearDerailleur\n    hazards:\n      - {signal: notice, harm: property, nature: N, consequence: C, avoidance: A}\n",
                "hazards:\n      - {signal: notice"
            },
            {
                "warning-incomplete",
                "        consequence: It cuts them off.\n",
                "",
                "signal: warning\n        harm: serious\n        nature: A turning"
            },
            {
                "warning-long",
                "avoidance: Keep away from it.",
                "avoidance: Stop. Look. Listen.",
                "Stop. Look. Listen."
            },
            {
                "signal-word-wrong",
                "      - signal: notice",
                "      - signal: caution",
                "caution\n        harm: property"
            },
            {
                "signal-word-changes",
                "- signal: warning\n        harm: serious\n        nature: A turning chain draws in fingers.",
                "- signal: danger\n        harm: serious\n        nature: The derailleur can go into the spokes.",
                "danger"
            },
            {
                "warnings-out-of-order",
                "      - signal: notice\n        harm: property",
                "      - signal: danger\n        harm: serious",
                "hazards:\n      - signal: warning\n        harm: serious\n        nature: The derailleur"
            },
            {
                "act-unguarded",
                "[drive-battery-out, inboard-stop-proven-by-hand, hanger-read]",
                "[drive-battery-out, inboard-stop-proven-by-hand]",
                "powered-shift-to-largest-cog]"
            },
            {
                "act-without-warning",
                "    action: Read the hanger",
                "    acts: [turn-cranks]\n    blockedUntil: [drive-battery-out]\n    action: Read the hanger",
                "turn-cranks"
            },
            {
                "act-without-warning",
                "        act: powered-shift-to-largest-cog\n",
                "",
                "powered-shift-to-largest-cog]"
            },
            {
                "act-undeclared",
                "action: Set the gap",
                "action: Set the gap on the largest cog",
                "Set the gap on"
            },
            {
                "act-undeclared",
                "action: Set the gap",
                "action: Run through every gear",
                "Run through"
            },
            {
                "act-undeclared",
                "    action: Read the hanger",
                "    hazards:\n      - {signal: warning, harm: serious, nature: N, consequence: C, avoidance: A, act: turn-cranks}\n"
                    + "    acts: [turn-cranks]\n    blockedUntil: [drive-battery-out]\n    action: Read the chain\n"
                    + "    part: hanger\n    check: {quantity: index, cog: largestCog, expected: Quiet}\n"
                    + "  - id: read-it\n    action: Read the hanger",
                "largestCog, expected"
            },
            {
                "several-actions",
                "action: Set the gap",
                "action: Set the gap, then read it",
                "Set the gap, then"
            },
            {
                "not-imperative",
                "action: Set the gap",
                "action: The gap should be set",
                "The gap should"
            },
            { "torque-without-value", "      least: 8 N·m\n", "", "torque:\n      fastener" },
            { "torque-incomplete", "      thread: greased\n", "", "torque:\n      fastener" },
            {
                "torque-incomplete",
                "      toolClass: setting-wrench\n",
                "",
                "torque:\n      fastener"
            },
            {
                "gap-without-convention",
                "      convention: Tooth tip to tooth tip\n",
                "",
                "check:\n      quantity: gap"
            },
            {
                "gap-without-convention",
                "      quantity: inboard-stop-proven\n      expected: It",
                "      quantity: chain-pitches\n      expected: It",
                "check:\n      quantity: chain"
            },
            { "tolerance-missing", "      tolerance: 0.5 mm\n", "", "gapTarget" },
            {
                "check-empty",
                "      expected: The cage is clear of the spokes\n",
                "",
                "check:\n      quantity: inboard"
            },
            {
                "range-reversed",
                "      least: 8 N·m\n      most: rearMount.most",
                "      least: 12 N·m\n      most: 4 N·m + 4 N·m",
                "12 N·m"
            },
            {
                "range-reversed",
                "      most: 4 mm",
                "      least: gapMost\n      most: gapLeast",
                "gapMost"
            },
            { "tolerance-negative", "tolerance: 0.5 mm", "tolerance: -0.5 mm", "-0.5 mm" },
            {
                "tolerance-without-target",
                "      most: 4 mm",
                "      most: 4 mm\n      tolerance: 1 mm",
                "1 mm"
            },
            {
                "quantity-misnamed",
                "quantity: hanger-straight",
                "quantity: hanger-strait",
                "hanger-strait"
            },
            { "unit-wrong", "least: 8 N·m", "least: 8 mm", "8 mm" },
            { "unit-wrong", "target: gapTarget", "target: 7 °", "7 °" },
            { "unit-wrong", "cog: largestCog", "cog: 7 mm", "7 mm" },
            { "unit-wrong", "tolerance: 0.5 mm", "tolerance: '0.5'", "'0.5'" },
        };

    [Fact]
    public void GoodProcedure_Linted_HasNoFinding()
    {
        var reading = ProcedureReader.Read(Good, "good.yaml");

        Assert.Empty(reading.Problems);
        Assert.Empty(reading.Lint());
    }

    [Theory]
    [MemberData(nameof(Breaks))]
    public void OneChange_Linted_BreaksItsRuleAlone_AtItsPlace(
        string rule,
        string old,
        string with,
        string at
    )
    {
        Assert.Equal(2, Good.Split(old).Length);
        var text = Good.Replace(old, with, StringComparison.Ordinal);
        var reading = ProcedureReader.Read(text, "broken.yaml");

        Assert.Empty(reading.Problems);
        var found = Assert.Single(reading.Lint());
        Assert.Equal(rule, found.Finding.Rule);
        Assert.NotEmpty(found.Finding.Message);
        Assert.NotEmpty(found.Finding.WhatToDo);
        Assert.NotEmpty(found.Finding.Source);
        var lines = text.Split('\n');
        var rest = string.Join('\n', lines[(found.Line - 1)..])[(found.Column - 1)..];
        Assert.StartsWith(at, rest, StringComparison.Ordinal);
    }

    [Fact]
    public void EveryRule_HasATestThatBreaksIt() =>
        Assert.Equal(
            LintRules.All.Order(StringComparer.Ordinal),
            Breaks.Select(row => row.Data.Item1).Distinct().Order(StringComparer.Ordinal)
        );

    // Common practice: the worst that setting up a rear derailleur can do.
    [Theory]
    [InlineData("inboard-stop-proven-by-hand")]
    [InlineData("hanger-read")]
    public void ShiftToLargestCog_WithoutItsGuard_IsFoundWhateverElseIsRight(string guard)
    {
        var text = Good.Replace(
            "blockedUntil: [drive-battery-out, inboard-stop-proven-by-hand, hanger-read]",
            guard == "hanger-read"
                ? "blockedUntil: [drive-battery-out, inboard-stop-proven-by-hand]"
                : "blockedUntil: [drive-battery-out, hanger-read]",
            StringComparison.Ordinal
        );

        var found = Assert.Single(ProcedureReader.Read(text, "p.yaml").Lint());

        Assert.Contains(guard, found.Finding.Message, StringComparison.Ordinal);
    }

    // Common practice: each of these left out has thrown a rider.
    [Theory]
    [InlineData("brakes-checked")]
    [InlineData("torques-done")]
    [InlineData("stand-tested")]
    [InlineData("wheel-seated")]
    [InlineData("chain-joint-loaded")]
    [InlineData("hanger-read")]
    [InlineData("inboard-stop-proven-by-hand")]
    public void TestRide_WithoutOneOfItsGuards_IsFound(string guard)
    {
        string[] guards =
        [
            "stand-tested",
            "brakes-checked",
            "torques-done",
            "wheel-seated",
            "chain-joint-loaded",
            "hanger-read",
            "inboard-stop-proven-by-hand",
        ];
        var ride = Good.Replace(
                "    acts: [turn-cranks, powered-shift-to-largest-cog]",
                "    acts: [test-ride]",
                StringComparison.Ordinal
            )
            .Replace("act: turn-cranks", "act: test-ride", StringComparison.Ordinal)
            .Replace("        act: powered-shift-to-largest-cog\n", "", StringComparison.Ordinal)
            .Replace("action: Shift to the largest cog", "action: Ride", StringComparison.Ordinal)
            .Replace(
                "[bike-held, chain-on, wheel-seated]",
                $"[bike-held, chain-on, {string.Join(", ", guards)}]",
                StringComparison.Ordinal
            );
        string Guarded(IEnumerable<string> by) =>
            ride.Replace(
                "[drive-battery-out, inboard-stop-proven-by-hand, hanger-read]",
                $"[{string.Join(", ", by)}]",
                StringComparison.Ordinal
            );

        Assert.Empty(ProcedureReader.Read(Guarded(guards), "p.yaml").Lint());
        var found = Assert.Single(
            ProcedureReader.Read(Guarded(guards.Except([guard])), "p.yaml").Lint()
        );
        Assert.Equal("act-unguarded", found.Finding.Rule);
        Assert.Contains(guard, found.Finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void MakingACondition_ClearsTheOthersOfItsGroup()
    {
        var text = Good.Replace(
            "    makes: [hanger-read]",
            "    makes: [hanger-read, drive-battery-in]",
            StringComparison.Ordinal
        );

        Assert.Equal(
            "condition-cleared",
            Assert.Single(ProcedureReader.Read(text, "p.yaml").Lint()).Finding.Rule
        );
    }

    [Fact]
    public void LongCycle_Linted_NamesEveryStepOfItOnce()
    {
        var text = Good.Replace(
            "    dependsOn: {steps: [mount]}",
            "    dependsOn: {steps: [mount], readings: [gap]}",
            StringComparison.Ordinal
        );

        var found = Assert.Single(ProcedureReader.Read(text, "p.yaml").Lint());

        Assert.Contains(
            "rough → gap → largest → prove → rough",
            found.Finding.Message,
            StringComparison.Ordinal
        );
    }
}
