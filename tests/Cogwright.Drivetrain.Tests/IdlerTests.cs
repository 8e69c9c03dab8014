using static Cogwright.Drivetrain.Tests.Example;
using static Cogwright.Drivetrain.Tests.RearEnds;

namespace Cogwright.Drivetrain.Tests;

/// <summary>The path over an idler, as the kernel has it, against <see cref="ChainPath"/> round five sprockets.</summary>
public class IdlerTests
{
    public static TheoryData<string, double> Poses()
    {
        var data = new TheoryData<string, double>();
        foreach (var mount in (string[])["frame", "member", "under"])
        {
            foreach (var travel in (double[])[0, 37, 90, 160])
            {
                data.Add(mount, travel);
            }
        }
        return data;
    }

    [Theory]
    [MemberData(nameof(Poses))]
    public void GearTable_WithIdler_AgreesWithFiveSprockets(string mount, double travel)
    {
        var idler = mount switch
        {
            "member" => Over with { On = IdlerMount.Member },
            // A small pulley that presses the upper run down.
            "under" => new Idler(new(-150, 65), 12, ChainUnder: true),
            _ => Over,
        };
        var spec = Trail(HighPivot, idler);
        Assert.Empty(SpecCheck.Problems(spec));
        var choice = ChainChooser.Choose(spec);
        var table = GearTableSolver.Solve(
            spec,
            ChainChooser.PitchesFor(spec, choice),
            null,
            travel
        );
        var posed = 0;
        foreach (var gear in table.Gears)
        {
            if (!gear.HasPose)
            {
                continue;
            }
            posed++;
            var rearEnd = RearEnd.Of(HighPivot);
            var axle = rearEnd.At(travel);
            var centre =
                mount == "member"
                    ? axle.Axle + (idler.CentreMm - HighPivot.Axle).Turned(axle.RotationRad)
                    : idler.CentreMm;
            var path = ChainPath.Round([
                new(axle.Axle, gear.Gear.CogTeeth, 1),
                new(centre, idler.Teeth, idler.ChainUnder ? -1 : 1),
                new(new(0, 0), gear.Gear.RingTeeth, 1),
                new(gear.Tension, 13, 1),
                new(gear.Guide, 13, -1),
            ]);
            Assert.Equal(table.Pitches, path.Pitches, 1e-9);
            Assert.Equal(path.Runs[0].LengthMm, gear.TopRunMm, 1e-9);
            Assert.Equal(path.Runs[1].LengthMm, gear.IdlerRunMm, 1e-9);
            Assert.Equal(path.Runs[2].LengthMm, gear.LowerRunMm, 1e-9);
            Assert.Equal(path.Wraps[0].Teeth, gear.CogTeethInMesh, 1e-9);
            Assert.Equal(path.Wraps[1].Teeth, gear.IdlerTeethInMesh, 1e-9);
            Assert.Equal(path.Wraps[2].Teeth, gear.RingTeethInMesh, 1e-9);
            Assert.Equal(
                Math.Atan(
                    Math.Abs(spec.Rings[0].LateralMm - spec.Cogs.LateralMm(gear.CogIndex))
                        / path.Runs[0].LengthMm
                ),
                gear.ChainAngleRad,
                1e-12
            );
        }
        Assert.True(posed > 6, $"{posed} {string.Join(' ', table.Gears.Select(g => g.State))}");
    }

    [Fact]
    public void Idler_BelowTheUpperRun_IsRefusedAndNamed()
    {
        var spec = Trail(HighPivot, Over with { CentreMm = new(-150, 40) });
        var problem = Assert.Single(SpecCheck.Problems(spec));
        Assert.Equal("idler.centre", problem.Path);
    }

    [Fact]
    public void Idler_InsideTheRing_IsRefusedAndNamed()
    {
        var spec = Trail(HighPivot, Over with { CentreMm = new(-30, 60) });
        var problem = Assert.Single(SpecCheck.Problems(spec));
        Assert.Equal("idler.centre", problem.Path);
        Assert.Contains("32", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Idler_OnThePivot_KeepsTheUpperRunsLength()
    {
        // With the idler's axis on the swingarm's pivot the distance cog to idler cannot change.
        var frame = HighPivot;
        var pivot = ((SinglePivot)frame.Suspension!.Linkage).PivotMm;
        var spec = Trail(frame, Over with { CentreMm = pivot });
        var first = GearTableSolver.Solve(spec, 130, null, 0).Gears[5].TopRunMm;
        foreach (var travel in (double[])[20, 100, 160])
        {
            Assert.Equal(
                first,
                GearTableSolver.Solve(spec, 130, null, travel).Gears[5].TopRunMm,
                1e-9
            );
        }
    }

    [Fact]
    public void Idler_Absent_LeavesTheGearWithoutIdlerFigures()
    {
        var gear = GearTableSolver.Solve(Spec, 110).Gears[0];
        Assert.True(double.IsNaN(gear.IdlerRunMm));
        Assert.True(double.IsNaN(gear.IdlerTeethInMesh));
    }
}
