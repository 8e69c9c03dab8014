using UnitsNet;
using Theirs = UnitsNet.Units.TorqueUnit;

namespace Cogwright.Fastening.Tests;

public sealed class TorqueUnitTests
{
    // NIST SP 811 (2008), B.8: 1 lbf·in = 1.129 848 E-01 N·m, 1 lbf·ft = 1.355 818 E+00 N·m, 1 kgf·m = 9.806 65 N·m (exact).
    [Theory]
    [InlineData("lbf·in", 0.1129848, 5e-8)]
    [InlineData("lbf·ft", 1.355818, 5e-7)]
    [InlineData("kgf·cm", 0.0980665, 1e-17)]
    [InlineData("N·m", 1, 1e-17)]
    public void Unit_AgainstSp811_IsTheSame(string symbol, double newtonMetres, double within) =>
        Assert.Equal(newtonMetres, TorqueUnit.Find(symbol)!.ToNm(1), within);

    [Theory]
    [InlineData("N·m", Theirs.NewtonMeter)]
    [InlineData("lbf·in", Theirs.PoundForceInch)]
    [InlineData("lbf·ft", Theirs.PoundForceFoot)]
    [InlineData("kgf·cm", Theirs.KilogramForceCentimeter)]
    public void Unit_AgainstUnitsNet_IsTheSame(string symbol, Theirs theirs)
    {
        var unit = TorqueUnit.Find(symbol)!;
        foreach (var value in new[] { 0.5, 1, 7.25, 45, 480 })
        {
            var there = Torque.From(value, theirs).As(Theirs.NewtonMeter);
            Assert.Equal(there, unit.ToNm(value), 1e-12 * there);
            Assert.Equal(value, unit.FromNm(unit.ToNm(value)), 1e-12 * value);
        }
    }

    [Theory]
    [InlineData("Nm", "N·m")]
    [InlineData("n.m", "N·m")]
    [InlineData("in-lbs", "lbf·in")]
    [InlineData("lb ft", "lbf·ft")]
    [InlineData("KGF*CM", "kgf·cm")]
    public void Find_OtherSpellings_AreKnown(string written, string symbol) =>
        Assert.Equal(symbol, TorqueUnit.Find(written)!.Symbol);

    [Theory]
    [InlineData("")]
    [InlineData("N")]
    [InlineData("furlong")]
    public void Find_WhatIsNoTorque_IsNull(string written) => Assert.Null(TorqueUnit.Find(written));
}
