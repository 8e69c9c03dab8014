using Cogwright.Files.Fields;
using UnitsNet.Units;
using Length = UnitsNet.Length;

namespace Cogwright.Files.Tests;

/// <summary>Factors of units, checked against UnitsNet and against published values.</summary>
public sealed class UnitsTests
{
    [Theory]
    [InlineData("mm", LengthUnit.Millimeter)]
    [InlineData("cm", LengthUnit.Centimeter)]
    [InlineData("m", LengthUnit.Meter)]
    [InlineData("in", LengthUnit.Inch)]
    [InlineData("\"", LengthUnit.Inch)]
    [InlineData("ft", LengthUnit.Foot)]
    public void LengthUnit_Factor_IsThatOfUnitsNet(string written, LengthUnit unit) =>
        Assert.Equal(
            Length.From(1, unit).Millimeters,
            Units.Find(Dimension.Length, written)!.ToModel,
            12
        );

    [Theory]
    [InlineData("N·m", TorqueUnit.NewtonMeter)]
    [InlineData("Nm", TorqueUnit.NewtonMeter)]
    [InlineData("N*m", TorqueUnit.NewtonMeter)]
    [InlineData("lbf·in", TorqueUnit.PoundForceInch)]
    [InlineData("in-lb", TorqueUnit.PoundForceInch)]
    [InlineData("in lbs", TorqueUnit.PoundForceInch)]
    [InlineData("lbf·ft", TorqueUnit.PoundForceFoot)]
    [InlineData("ft-lb", TorqueUnit.PoundForceFoot)]
    [InlineData("kgf·cm", TorqueUnit.KilogramForceCentimeter)]
    public void TorqueUnit_Factor_IsThatOfUnitsNet(string written, TorqueUnit unit) =>
        Assert.Equal(
            UnitsNet.Torque.From(1, unit).NewtonMeters,
            Units.Find(Dimension.Torque, written)!.ToModel,
            // UnitsNet stores the pound-force foot with 14 digits.
            1e-9
        );

    /// <summary>Derived exactly from 1 in = 0.0254 m, 1 lb = 0.45359237 kg (1959) and g = 9.80665 m/s² (CGPM 1901).</summary>
    [Theory]
    [InlineData("lbf·in", 0.1129848290276167)]
    [InlineData("lbf·ft", 1.3558179483314004)]
    [InlineData("kgf·cm", 0.0980665)]
    public void TorqueUnit_Factor_IsTheExactOne(string written, double factor) =>
        Assert.Equal(factor, Units.Find(Dimension.Torque, written)!.ToModel, 1e-15);

    [Theory]
    [InlineData("deg", AngleUnit.Degree)]
    [InlineData("°", AngleUnit.Degree)]
    [InlineData("rad", AngleUnit.Radian)]
    public void AngleUnit_Factor_IsThatOfUnitsNet(string written, AngleUnit unit) =>
        Assert.Equal(
            UnitsNet.Angle.From(1, unit).Radians,
            Units.Find(Dimension.Angle, written)!.ToModel,
            12
        );

    [Fact]
    public void Percent_OfAnyTenth_IsTheExactFraction()
    {
        Assert.Equal(0.005, Units.ToModel(0.5, Units.Find(Dimension.Fraction, "%")!));
        Assert.Equal(0.003, Units.ToModel(0.3, Units.Find(Dimension.Fraction, "%")!));
    }

    [Theory]
    [InlineData("16.5 in", 419.1)]
    [InlineData("16.5\"", 419.1)]
    [InlineData("41.91cm", 419.1)]
    [InlineData("0.4191 m", 419.1)]
    [InlineData("+419.1", 419.1)]
    [InlineData("4.191e2 mm", 419.1)]
    [InlineData("1.375 ft", 419.1)]
    public void Chainstay_WithUnit_IsConvertedToMm(string written, double mm)
    {
        var text = Repository
            .Text("demo/specs/model-example.yaml")
            .Replace("chainstay: 410", $"chainstay: '{written}'", StringComparison.Ordinal);

        var spec = SpecReader.Read(text, "bike.yaml").Spec!;

        Assert.Equal(mm, spec.Drivetrain.Frame.ChainstayMm, 10);
    }

    [Fact]
    public void Elongation_InPercent_IsAFraction()
    {
        var text = Repository
            .Text("demo/specs/model-example.yaml")
            .Replace("pitches: 110", "elongation: 0.5 %", StringComparison.Ordinal);

        Assert.Equal(0.005, SpecReader.Read(text, "bike.yaml").Spec!.Drivetrain.Chain.Elongation);
    }

    [Fact]
    public void TypographicMinus_InAFigure_IsAMinus()
    {
        var text = Repository
            .Text("demo/specs/model-example.yaml")
            .Replace("linkAngle: -47", "linkAngle: \u221247", StringComparison.Ordinal);

        var spec = SpecReader.Read(text, "bike.yaml").Spec!;

        Assert.Equal(-47 * Math.PI / 180, spec.Drivetrain.RearDerailleur!.LinkAngleRad, 15);
    }
}
