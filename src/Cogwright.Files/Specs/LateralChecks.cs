using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>What cannot be of the lateral fields as they stand in the file.</summary>
internal static class LateralChecks
{
    internal static void Check(Leaves leaves, ProblemList problems)
    {
        foreach (var stop in (string[])["outboardStop", "inboardStop"])
        {
            CheckStop(leaves, problems, stop);
        }
    }

    private static void CheckStop(Leaves leaves, ProblemList problems, string stop)
    {
        var path = $"rearDerailleur.{stop}";
        string[] given =
        [
            .. ((string[])[path, path + "Lateral", path + "Overshoot"]).Where(leaves.Has),
        ];
        if (given.Length > 1)
        {
            problems.Error(
                leaves.NearestPlace(given[1]),
                given[1],
                Texts.Get("check.stopTwice", string.Join(", ", given))
            );
            return;
        }
        if (
            LateralBinder.StopLateralMm(leaves, stop) is { } lateral
            && LateralBinder.StopRad(leaves, stop) is null
        )
        {
            var middle = leaves.Number("rearDerailleur.guideLateralAtZero");
            var reach =
                leaves.Number("rearDerailleur.linkLength")
                * Math.Cos(leaves.Number("rearDerailleur.slant"));
            problems.Error(
                leaves.NearestPlace(given[0]),
                given[0],
                Texts.Get("check.stopBeyond", lateral, middle - reach, middle + reach)
            );
        }
    }
}
