using Cogwright.Drivetrain.Bench;

namespace Cogwright.Cli.Output;

/// <summary>Which of the bench's parameters are angles; the others are lengths.</summary>
internal static class BenchUnits
{
    internal static bool IsAngle(BenchParameter parameter) =>
        parameter
            is BenchParameter.LinkAngle
                or BenchParameter.Slant
                or BenchParameter.GuideAngle
                or BenchParameter.RearStop
                or BenchParameter.FrontStop
                or BenchParameter.ScrewTurn;
}
