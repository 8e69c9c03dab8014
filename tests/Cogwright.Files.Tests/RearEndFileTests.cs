using Cogwright.Drivetrain;

namespace Cogwright.Files.Tests;

/// <summary>Suspension and idler in a spec file, read and written.</summary>
public sealed class RearEndFileTests
{
    private const string Head = """
        name: Fell
        hanger: {class: interchangeable}
        rings: [32]
        cogs: {teeth: 10-12-14-16-18-21-24-28-33-39-45-51}
        rearDerailleur: {class: trail-long}
        frame:
          chainstay: 440
          bbDrop: 35
          suspension:

        """;

    [Fact]
    public void Suspension_SinglePivotByStroke_IsReadWithEveryField()
    {
        var spec = Read(
            """
                kind: single-pivot
                pivot: [20, 60]
                travel: 20
                travelMeans: shock-stroke
                shock: {frame: [40, 260], member: [-70, 150], on: lower-link}
                sag: "25 %"
            idler: {centre: [-20, 112], teeth: 16, on: member, chain: over, lateral: 51}
            """
        );
        var suspension = spec.Drivetrain.Frame.Suspension!;
        Assert.Equal(new SinglePivot(new(20, 60)), suspension.Linkage);
        Assert.Equal(20, suspension.TravelMm);
        Assert.Equal(TravelMeaning.ShockStroke, suspension.TravelMeans);
        Assert.Equal(new ShockEyes(new(40, 260), new(-70, 150)), suspension.Shock);
        Assert.Equal(0.25, suspension.SagFraction);
        Assert.Equal(
            new Idler(new(-20, 112), 16, IdlerMount.Member, LateralMm: 51),
            spec.Drivetrain.Idler
        );
        AssertComesBack(spec);
    }

    [Fact]
    public void Suspension_FourBar_IsReadWithEveryField()
    {
        var spec = Read(
            """
                kind: four-bar
                lowerLink: {frame: [-20, 70], rear: [-385, 45]}
                upperLink: {frame: [-50, 330], rear: [-120, 290]}
                axleOn: lower-link
                travel: 5.5 in
            """
        );
        var suspension = spec.Drivetrain.Frame.Suspension!;
        Assert.Equal(
            new FourBar(
                new(-20, 70),
                new(-385, 45),
                new(-50, 330),
                new(-120, 290),
                LinkageMember.LowerLink
            ),
            suspension.Linkage
        );
        Assert.Equal(139.7, suspension.TravelMm, 1e-9);
        Assert.Equal(TravelMeaning.VerticalAtWheel, suspension.TravelMeans);
        Assert.Null(suspension.SagFraction);
        AssertComesBack(spec);
    }

    [Fact]
    public void Suspension_Path_IsReadRowByRow()
    {
        var spec = Read(
            """
                kind: path
                path:
                  - {travel: 0, x: -438.6, y: 35, rotation: 0}
                  - {travel: 60, x: -441.5, y: 95, rotation: -7.5}
                  - {travel: 120, x: -436.1, y: 155, rotation: -15}
                travel: 120
            """
        );
        var table = Assert.IsType<TabulatedPath>(spec.Drivetrain.Frame.Suspension!.Linkage);
        Assert.Equal(3, table.Points.Length);
        Assert.Equal(new Point(-441.5, 95), table.Points[1].AxleMm);
        Assert.Equal(-15 * Math.PI / 180, table.Points[2].RotationRad, 1e-15);
        AssertComesBack(spec);
    }

    [Fact]
    public void FullSuspensionDemo_Solved_ServesEveryGearOverTheTravel()
    {
        var spec = DemoSpecTests.Read("full-suspension-1x12.yaml").Drivetrain;
        AssertServesOverTravel(spec);
        // Common practice: trail bikes grow by 8 to 20 mm.
        Assert.InRange(LongestPosition.Of(spec.Frame).GrowthMm, 8, 20);
    }

    [Fact]
    public void HighPivotDemo_Solved_ServesEveryGearAndTheUpperRunHardlyGrows()
    {
        var spec = DemoSpecTests.Read("high-pivot-idler-1x12.yaml").Drivetrain;
        AssertServesOverTravel(spec);
        // Axle to bracket grows much, axle to idler little: what the idler is for.
        var rearEnd = RearEnd.Of(spec.Frame);
        var idler = spec.Idler!.CentreMm;
        var extended = (rearEnd.Extended.Axle - idler).Length;
        var full = rearEnd.At(rearEnd.TravelMm).Axle;
        Assert.True(LongestPosition.Of(spec.Frame).GrowthMm > 25);
        Assert.InRange((full - idler).Length - extended, -8, 8);
    }

    private static void AssertServesOverTravel(DrivetrainSpec spec)
    {
        var choice = ChainChooser.Choose(spec);
        Assert.Equal(ChainChoiceStatus.ServesAll, choice.Status);
        var gears = spec.Cogs.Teeth.Select(cog => new Gear(spec.Rings[0].Teeth, cog)).ToArray();
        var sweep = TravelSweep.Of(spec, gears, choice.Numbers.Recommended!.Value, 50);
        Assert.All(sweep.State.ToArray(), state => Assert.Equal(GearState.Ok, state));
        var gap = choice.Table!.Find(gears[^1])!.Value.GapMm;
        // Common practice on wide cassettes: about 11 mm by hand.
        Assert.InRange(gap, 6, 14);
    }

    private static SpecFile Read(string rest)
    {
        var reading = SpecReader.Read(Head + rest + "\n", "test.yaml");
        Assert.Empty(reading.Problems);
        return reading.Spec!;
    }

    private static void AssertComesBack(SpecFile spec)
    {
        var back = SpecReader.Read(SpecWriter.Write(spec), "back.yaml");
        Assert.Empty(back.Problems);
        var (before, after) = (spec.Drivetrain, back.Spec!.Drivetrain);
        Assert.Equal(before.Idler, after.Idler);
        if (before.Frame.Suspension!.Linkage is TabulatedPath table)
        {
            var written = Assert.IsType<TabulatedPath>(after.Frame.Suspension!.Linkage);
            Assert.Equal(table.Points.AsEnumerable(), written.Points);
            return;
        }
        Assert.Equal(before.Frame.Suspension, after.Frame.Suspension);
    }
}
