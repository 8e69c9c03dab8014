using System.Collections.Immutable;

namespace Cogwright.Setup.Procedures;

/// <summary>What no longer holds when something else is set: common practice of the trade. Immutable.</summary>
public static class AdjusterEdges
{
    private static readonly ImmutableDictionary<string, ImmutableArray<string>> Edges =
        new Dictionary<string, ImmutableArray<string>>
        {
            // A hanger that was bent moves the whole derailleur.
            ["hanger"] =
            [
                "inboard-stop",
                "outboard-stop",
                "body-angle",
                "barrel-adjuster",
                "offset-step",
            ],
            // The cage's angle, and with it the gap, comes from the length.
            ["chain-length"] = ["body-angle"],
            // Turning the body moves the pulley sideways along the slant.
            ["body-angle"] = ["inboard-stop", "barrel-adjuster", "offset-step"],
            // A motor's stop screws are set to where the offset puts the pulley.
            ["offset-step"] = ["inboard-stop", "outboard-stop"],
            // The stop is where the first click starts.
            ["outboard-stop"] = ["barrel-adjuster"],
            ["rear-cable"] = ["barrel-adjuster"],
            ["front-height"] = ["front-inboard-stop", "front-outboard-stop"],
            ["front-angle"] = ["front-inboard-stop", "front-outboard-stop"],
        }.ToImmutableDictionary();

    /// <summary>The adjusters that must be set again after one was; empty when none.</summary>
    public static ImmutableArray<string> SetAgainAfter(string adjuster) =>
        Edges.GetValueOrDefault(adjuster, []);
}
