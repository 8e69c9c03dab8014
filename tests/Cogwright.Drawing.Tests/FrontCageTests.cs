using Cogwright.Drivetrain;

namespace Cogwright.Drawing.Tests;

/// <summary>The front cage in the side view stands where the model says.</summary>
public class FrontCageTests
{
    private static readonly FrontDerailleur Front = new()
    {
        RearXMm = -95,
        FrontXMm = 0,
        InnerPlate = new(-8.5, -6, 1),
        OuterPlate = new(6, 6, 1),
        LinkLengthMm = 30,
        LinkAngleRad = -80 * Math.PI / 180,
        HeightMm = 1.5,
        BridgeBelowMm = 40,
    };

    private static GearTable Table =>
        WorkedExample.Table with
        {
            Spec = WorkedExample.Table.Spec with { FrontDerailleur = Front },
        };

    [Theory]
    [InlineData(50, 11)]
    [InlineData(34, 34)]
    public void Cage_OfAGear_StandsAtItsHeightOverTheLargeRing(int ring, int cog)
    {
        var gear = new Gear(ring, cog);
        var own = FrontClearances.Of(Table)!.Find(gear)!.Own!.Value;
        var tip = Sprocket.TipRadiusMm(50);
        var with = SideView.Draw(Table, gear).Shapes.OfType<Polyline>();
        var without = SideView.Draw(WorkedExample.Table, gear).Shapes.OfType<Polyline>().Count();

        Assert.Equal(without + 1, with.Count());
        // Nothing else has a point straight above the bottom bracket at that very height.
        Assert.Contains(
            with.SelectMany(outline => outline.Points),
            p => Math.Abs(p.X) < 1e-9 && Math.Abs(p.Y - (tip + own.HeightMm!.Value)) < 1e-9
        );
    }

    /// <summary>A plate that reaches beyond its own ring has no edge that follows it.</summary>
    [Fact]
    public void Cage_PlateLongerThanItsRing_IsNotDrawn()
    {
        var gear = new Gear(50, 11);
        var tooLong = Table with
        {
            Spec = Table.Spec with { FrontDerailleur = Front with { RearXMm = -200 } },
        };

        Assert.NotNull(FrontClearances.Of(tooLong)!.Find(gear)!.Own?.HeightMm);
        Assert.Equal(
            SvgWriter.Write(SideView.Draw(WorkedExample.Table, gear)),
            SvgWriter.Write(SideView.Draw(tooLong, gear))
        );
    }
}
