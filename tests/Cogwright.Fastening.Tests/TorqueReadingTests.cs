using Cogwright.Measurement;

namespace Cogwright.Fastening.Tests;

public sealed class TorqueReadingTests
{
    private static readonly TorqueTool Tool = new()
    {
        Name = "Bench wrench",
        Class = ToolClass.Find("IIA")!,
        MinNm = 4,
        MaxNm = 20,
        ArmMm = 250,
    };

    // Permissible deviation 4 % as a rectangular distribution: u = 0.04·T/√3 (GUM 4.3.7); within when the limit is 1.645·u away.
    [Theory]
    [InlineData(9, Verdict.Within)]
    [InlineData(9.6, Verdict.Within)]
    [InlineData(9.7, Verdict.TooCloseToCall)]
    [InlineData(10.3, Verdict.TooCloseToCall)]
    [InlineData(10.45, Verdict.Outside)]
    [InlineData(7.5, Verdict.Outside)]
    [InlineData(7.8, Verdict.TooCloseToCall)]
    public void Result_AgainstARange_KnowsTheDeviationOfTheTool(double told, Verdict verdict)
    {
        var result = TorqueReview.Of(new(Tool, told, ReadingWay.Told), new(8, 10));
        Assert.Equal(verdict, result.Verdict);
        Assert.Equal(0.04 * told / Math.Sqrt(3), result.Torque.StandardUncertainty, 1e-12);
        Assert.Equal(verdict == Verdict.Within, result.WhatToDo.Length == 0);
    }

    [Fact]
    public void Result_AboveAndBelow_AreMendedDifferently()
    {
        var above = TorqueReview.Of(new(Tool, 12, ReadingWay.Told), new(8, 10));
        var below = TorqueReview.Of(new(Tool, 6, ReadingWay.Told), new(8, 10));
        Assert.StartsWith("Loosen", above.WhatToDo, StringComparison.Ordinal);
        Assert.StartsWith("Tighten", below.WhatToDo, StringComparison.Ordinal);
    }

    /// <summary>A tight bolt that clicks at once may have any torque above: it is never called within.</summary>
    [Fact]
    public void Result_ClickedWithoutTurning_NeverProvesThatItIsNotTooTight()
    {
        var result = TorqueReview.Of(new(Tool, 9, ReadingWay.ClickedWithoutTurning), new(8, 10));
        Assert.True(result.ShowsLeastOnly);
        Assert.NotEqual(Verdict.Within, result.Verdict);
        Assert.Contains("at least", result.What, StringComparison.Ordinal);
        Assert.NotEmpty(result.WhatToDo);
    }

    /// <summary>What the tool shows is a least torque: where that is beyond the range already, the fastener is too tight for sure.</summary>
    [Theory]
    [InlineData(12, 8, 10, Verdict.Outside)]
    [InlineData(20, 15, 15, Verdict.Outside)]
    [InlineData(10.3, 8, 10, Verdict.TooCloseToCall)]
    [InlineData(9, 8, 10, Verdict.TooCloseToCall)]
    [InlineData(5, 8, 10, Verdict.TooCloseToCall)]
    public void Result_ClickedWithoutTurningBeyondTheRange_IsToldToBeTooTight(
        double told,
        double lower,
        double upper,
        Verdict verdict
    )
    {
        var result = TorqueReview.Of(
            new(Tool, told, ReadingWay.ClickedWithoutTurning),
            new(lower, upper)
        );
        Assert.True(result.ShowsLeastOnly);
        Assert.Equal(verdict, result.Verdict);
        var isTooTight = verdict == Verdict.Outside;
        Assert.Equal(!isTooTight, result.What.Contains("does not show", StringComparison.Ordinal));
        Assert.Equal(isTooTight, result.What.Contains("so tighter than", StringComparison.Ordinal));
        Assert.Equal(
            isTooTight,
            result.WhatToDo.StartsWith("Loosen it, look at", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Result_ThroughAnAdapter_IsTheTorqueOfTheBoltAndKnowsTheHand()
    {
        var reading = new TorqueReading(Tool, 8, ReadingWay.Clicked)
        {
            Adapter = WrenchAdapter.InLine(50),
        };
        var torque = TorqueReview.At(reading);
        Assert.Equal(9.6, torque.Value, 1e-12);
        // The hand off by up to 10 mm: 8·50/250² N·m per mm, rectangular.
        var hand = 8 * 50 / 62_500.0 * 10 / Math.Sqrt(3);
        var tool = 0.04 * 9.6 / Math.Sqrt(3);
        Assert.Equal(Math.Sqrt((hand * hand) + (tool * tool)), torque.StandardUncertainty, 1e-12);
        Assert.Equal(tool, TorqueReview.At(reading with { HandMm = 0 }).StandardUncertainty, 1e-12);
    }

    [Theory]
    [InlineData(15, null)]
    [InlineData(15.3, null)]
    [InlineData(16, Verdict.Outside)]
    [InlineData(14, Verdict.Outside)]
    public void Result_AgainstOneFigure_AgreesOrDiffersButIsNeverCalledWithin(
        double told,
        Verdict? verdict
    ) =>
        Assert.Equal(
            verdict,
            TorqueReview.Of(new(Tool, told, ReadingWay.Clicked), new(15, 15)).Verdict
        );

    [Fact]
    public void At_MoreThanTheScaleHas_IsRefusedInWords()
    {
        var error = Assert.Throws<ArgumentException>(() =>
            TorqueReview.At(new(Tool, 90, ReadingWay.Told))
        );
        Assert.Contains("Bench wrench", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() =>
            TorqueReview.At(new(Tool, double.NaN, ReadingWay.Told))
        );
    }

    [Fact]
    public void At_AdapterAndNoArm_AsksForTheArm() =>
        Assert.Throws<ArgumentException>(() =>
            TorqueReview.At(
                new(Tool with { ArmMm = null }, 9, ReadingWay.Told)
                {
                    Adapter = WrenchAdapter.InLine(50),
                }
            )
        );
}
