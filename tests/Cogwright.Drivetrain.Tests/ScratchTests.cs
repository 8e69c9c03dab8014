using static Cogwright.Drivetrain.Tests.Example;
namespace Cogwright.Drivetrain.Tests;
public class ScratchTests(ITestOutputHelper output)
{
    [Fact]
    public void Scratch()
    {
        var spec = CoaxialExample.Spec;
        var c = ChainChooser.Choose(spec);
        output.WriteLine($"{c.Status} {c.Numbers} {CoaxialSetUp.Lengths(spec)} ");
        foreach (var l in c.LeftOut) output.WriteLine($"{l}");
        for (var p = 112; p < 130; p += 2)
        {
            var t = GearTableSolver.Solve(spec, p);
            output.WriteLine($"{p} {t.SetUp} {Deg(t.BodyAngleRad):0.0}");
            output.WriteLine(string.Join("  ", t.Gears.Select(g => $"{g.Gear.CogTeeth}:{g.State} {g.GapMm:0.0} {Deg(g.CageAngleRad - t.BodyAngleRad):0}")));
        }
        foreach (var problem in SpecCheck.Problems(spec)) output.WriteLine($"{problem}");
    }
}
