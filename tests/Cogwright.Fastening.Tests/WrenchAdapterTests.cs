using CsCheck;

namespace Cogwright.Fastening.Tests;

public sealed class WrenchAdapterTests
{
    private const double InchMm = 25.4;

    // In line. Sources: a torque wrench's manual (16 in, 2 in, 50 lbf·ft: 44.44); a page on torque wrenches (12 in, 6 in,
    // 30 lbf·ft: 20); a general page (40 cm, 5 cm, 80 N·m: 71.1). The unit of torque falls out.
    [Theory]
    [InlineData(16 * InchMm, 2 * InchMm, 50, 44.44)]
    [InlineData(12 * InchMm, 6 * InchMm, 30, 20)]
    [InlineData(400, 50, 80, 71.11)]
    public void Setting_InLine_IsThePublishedOne(
        double armMm,
        double lengthMm,
        double torque,
        double published
    ) => Assert.Equal(published, WrenchAdapter.InLine(lengthMm).SettingNm(torque, armMm), 0.005);

    // A reference page (engineering tables) gives T·L/(L − E) for an arm that the adapter shortens.
    [Fact]
    public void Setting_TurnedBack_IsThatOfTheReducedArm() =>
        Assert.Equal(
            40 * 300.0 / (300 - 60),
            WrenchAdapter.Angled(60, Math.PI).SettingNm(40, 300),
            1e-12
        );

    // One page says that the correction applies at 90° and not in line: that is wrong, and must not creep in.
    [Fact]
    public void Setting_SidewaysAndInLine_AreNotMixedUp()
    {
        Assert.Equal(40, WrenchAdapter.Sideways(60).SettingNm(40, 300));
        Assert.Equal(40, WrenchAdapter.Angled(60, Math.PI / 2).SettingNm(40, 300));
        Assert.Equal(40, WrenchAdapter.Angled(60, -Math.PI / 2).SettingNm(40, 300));
        Assert.True(WrenchAdapter.InLine(60).SettingNm(40, 300) < 34);
    }

    /// <summary>An independent way: the moment of the hand's force about the bolt, from coordinates.</summary>
    [Fact]
    public void Torque_AnyAngle_IsTheMomentOfTheHandAboutTheBolt()
    {
        var bench = Gen.Select(
            Gen.Double[0, 200],
            Gen.Double[-Math.PI, Math.PI],
            Gen.Double[250, 600],
            Gen.Double[1, 60]
        );
        bench.Sample(
            (length, angle, arm, told) =>
            {
                // The wrench lies along x, its drive in the origin and the hand at −arm, pulling along y.
                var (boltX, boltY) = (length * Math.Cos(angle), length * Math.Sin(angle));
                var (handX, handY) = (-arm, 0.0);
                var (forceX, forceY) = (0.0, -told / arm);
                var moment = ((handX - boltX) * forceY) - ((handY - boltY) * forceX);
                var adapter = WrenchAdapter.Angled(length, angle);
                Assert.Equal(moment, adapter.TorqueNm(told, arm), 1e-9);
                Assert.Equal(told, adapter.SettingNm(moment, arm), 1e-9);
            }
        );
    }

    [Fact]
    public void PerHandMm_AnyAdapter_IsTheFiniteDifference()
    {
        var adapter = WrenchAdapter.Angled(80, 0.5);
        var difference = (adapter.TorqueNm(20, 300.01) - adapter.TorqueNm(20, 299.99)) / 0.02;
        Assert.Equal(difference, adapter.PerHandMm(20, 300), 1e-8);
        Assert.Equal(0, WrenchAdapter.None.PerHandMm(20, 300));
    }

    [Fact]
    public void Factor_AdapterThatLeavesNoArm_IsRefusedInWords()
    {
        var error = Assert.Throws<ArgumentException>(() =>
            WrenchAdapter.Angled(290, Math.PI).SettingNm(5, 300)
        );
        Assert.Contains("leaves no arm", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(501)]
    [InlineData(double.NaN)]
    public void Adapter_LengthThatCannotBe_IsRefused(double lengthMm) =>
        Assert.Throws<ArgumentException>(() => WrenchAdapter.InLine(lengthMm));

    [Theory]
    [InlineData(0)]
    [InlineData(-300)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Factor_ArmThatCannotBe_IsRefused(double armMm) =>
        Assert.Throws<ArgumentException>(() => WrenchAdapter.InLine(50).Factor(armMm));

    [Theory]
    [InlineData(0)]
    [InlineData(double.NaN)]
    [InlineData(5000)]
    public void Setting_TorqueThatCannotBe_IsRefused(double torqueNm) =>
        Assert.Throws<ArgumentException>(() => WrenchAdapter.None.SettingNm(torqueNm, 300));
}
