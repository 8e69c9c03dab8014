using System.Collections.Immutable;

namespace Cogwright.Fastening.Tests;

public sealed class ToolChoiceTests
{
    private static readonly DateOnly Today = new(2026, 6, 1);
    private static readonly Calibration Fresh = new(new(2026, 3, 2));

    private static readonly TorqueTool Small = new()
    {
        Name = "Small wrench",
        Class = ToolClass.Find("IIA")!,
        MinNm = 2,
        MaxNm = 15,
        GraduationNm = 0.25,
        ArmMm = 180,
        Calibration = Fresh,
        WorksLeftHand = true,
    };

    private static readonly TorqueTool Large = new()
    {
        Name = "Large wrench",
        Class = ToolClass.Find("IIA")!,
        MinNm = 5,
        MaxNm = 60,
        GraduationNm = 1,
        ArmMm = 320,
        Calibration = Fresh,
    };

    private static readonly TorqueTool Driver = new()
    {
        Name = "Driver 5",
        Class = ToolClass.Find("IIE")!,
        MaxNm = 5,
        Calibration = Fresh,
    };

    private static readonly ImmutableArray<TorqueTool> Shop = [Large, Driver, Small];

    private static TighteningTask Asked(double lower, double upper) => new(new(lower, upper));

    [Fact]
    public void Rank_MountingBolt_TakesTheSmallWrenchAndSaysWhy()
    {
        var ranked = ToolChoice.Rank(Asked(8, 10), Shop, Today);
        Assert.Equal(
            ["Small wrench", "Large wrench", "Driver 5"],
            ranked.Select(each => each.Tool.Name)
        );
        var best = ranked[0];
        Assert.Equal(Suitability.Suits, best.Suitability);
        Assert.Equal(9, best.SettingNm);
        Assert.Equal(9 / 1.04, best.LeastNm!.Value, 1e-12);
        Assert.Equal(9 / 0.96, best.MostNm!.Value, 1e-12);
        Assert.Equal(ToolReasonKind.Setting, best.Reasons[0].Kind);
        // 9 N·m is less than 20 % of 60 N·m.
        Assert.Equal(Suitability.WithCare, ranked[1].Suitability);
        Assert.Contains(ranked[1].Reasons, each => each.Kind == ToolReasonKind.BelowChecked);
        Assert.Contains(ranked[2].Reasons, each => each.Kind == ToolReasonKind.FixedElsewhere);
    }

    [Theory]
    [InlineData(0.4, 0.7, ToolReasonKind.BelowScale)]
    [InlineData(35, 40, ToolReasonKind.AboveScale)]
    [InlineData(14.8, 15.6, ToolReasonKind.TooCoarse)]
    [InlineData(8.05, 8.2, ToolReasonKind.NoMark)]
    [InlineData(2.5, 2.9, ToolReasonKind.BelowChecked)]
    public void Judge_BoltThatDoesNotSuit_NamesTheReason(
        double lower,
        double upper,
        ToolReasonKind kind
    )
    {
        var answer = ToolChoice.Judge(Asked(lower, upper), Small, Today);
        Assert.Contains(answer.Reasons, each => each.Kind == kind);
        Assert.NotEqual(Suitability.Suits, answer.Suitability);
        Assert.All(answer.Reasons, each => Assert.NotEmpty(each.Sentence));
    }

    /// <summary>Whatever the range, a tool that suits keeps to it with its whole deviation, on a mark of its scale.</summary>
    [Fact]
    public void Judge_AnyRange_WhatSuitsKeepsToItWithTheWholeDeviation()
    {
        for (var lower = 1.0; lower < 70; lower += 0.37)
        {
            for (var width = 0.1; width < 20; width += 0.9)
            {
                foreach (var tool in new[] { Small, Large })
                {
                    var answer = ToolChoice.Judge(Asked(lower, lower + width), tool, Today);
                    if (answer.Suitability != Suitability.Suits)
                    {
                        continue;
                    }
                    Assert.InRange(answer.LeastNm!.Value, lower - 1e-8, lower + width);
                    Assert.InRange(answer.MostNm!.Value, lower, lower + width + 1e-8);
                    var steps = answer.SettingNm!.Value / tool.GraduationNm!.Value;
                    Assert.Equal(Math.Round(steps), steps, 1e-6);
                }
            }
        }
    }

    /// <summary>Where the middle lies between two marks the one that still keeps to the range is taken.</summary>
    [Fact]
    public void Judge_NarrowRange_TakesTheMarkInIt() =>
        Assert.Equal(14, ToolChoice.Judge(Asked(13.6, 14.4), Large, Today).SettingNm);

    /// <summary>9 lies nearer to the middle, 8.515, but may give 9.375: the mark with which the whole deviation keeps to the range is taken.</summary>
    [Fact]
    public void Judge_NearestMarkMayGiveTooMuch_TakesTheOneThatMayNot()
    {
        var answer = ToolChoice.Judge(Asked(7.68, 9.35), Large with { MaxNm = 40 }, Today);
        Assert.Equal(8, answer.SettingNm);
        Assert.Equal(Suitability.Suits, answer.Suitability);
    }

    /// <summary>An independent way: every mark of the scale is tried. Where one keeps to the range, the tool is not called too coarse.</summary>
    [Fact]
    public void Judge_AnyRange_FindsTheMarkThatKeepsToItWhereThereIsOne()
    {
        for (var lower = 5.0; lower < 40; lower += 0.31)
        {
            for (var width = 0.2; width < 8; width += 0.27)
            {
                var upper = lower + width;
                var isThere = Enumerable
                    .Range(5, 56)
                    .Any(mark => mark / 1.04 >= lower && mark / 0.96 <= upper);
                var answer = ToolChoice.Judge(Asked(lower, upper), Large, Today);
                Assert.Equal(
                    isThere,
                    answer.SettingNm is not null
                        && answer.Reasons.All(each => each.Kind != ToolReasonKind.TooCoarse)
                );
            }
        }
    }

    [Fact]
    public void Judge_RangeBeyondTheScale_IsSetWithinBoth() =>
        Assert.Equal(15, ToolChoice.Judge(Asked(14, 20), Small, Today).SettingNm);

    [Fact]
    public void Judge_LeftHandThread_AsksForAToolThatWorksBothWays()
    {
        var task = Asked(12, 15) with { IsLeftHand = true };
        Assert.Equal(Suitability.Suits, ToolChoice.Judge(task, Small, Today).Suitability);
        var oneWay = ToolChoice.Judge(task, Large, Today);
        Assert.Equal(Suitability.DoesNotSuit, oneWay.Suitability);
        Assert.Contains(oneWay.Reasons, each => each.Kind == ToolReasonKind.OneWay);
    }

    [Theory]
    [InlineData(null, Suitability.Suits)]
    [InlineData(ToolKind.HandTool, Suitability.Suits)]
    [InlineData(ToolKind.PresetDriver, Suitability.Suits)]
    [InlineData(ToolKind.SettingWrench, Suitability.WithCare)]
    [InlineData(ToolKind.IndicatingWrench, Suitability.WithCare)]
    public void Judge_ToolLessSureThanTheProcedureAsks_IsTakenWithCare(
        ToolKind? asked,
        Suitability suitability
    )
    {
        var task = Asked(4, 6) with { LeastSure = asked };
        Assert.Equal(suitability, ToolChoice.Judge(task, Driver, Today).Suitability);
    }

    [Fact]
    public void Judge_ToolOverdue_DoesNotSuitThoughItsScaleDoes()
    {
        var answer = ToolChoice.Judge(Asked(8, 10), Small, new(2027, 3, 2));
        Assert.Equal(Suitability.DoesNotSuit, answer.Suitability);
        Assert.Equal(9, answer.SettingNm);
        var worn = Small with { Calibration = Fresh with { UsesSince = 5001 } };
        Assert.Contains(
            ToolChoice.Judge(Asked(8, 10), worn, Today).Reasons,
            each => each.Kind == ToolReasonKind.Overdue
        );
    }

    [Fact]
    public void Judge_CalibrationNobodyKnows_IsTakenWithCare()
    {
        var unknown = Small with { Calibration = Calibration.NotKnown };
        Assert.Equal(
            Suitability.WithCare,
            ToolChoice.Judge(Asked(8, 10), unknown, Today).Suitability
        );
    }

    [Fact]
    public void Judge_WithAnAdapterInLine_IsSetLowerAndSaysWhereTheHandIs()
    {
        var task = Asked(8, 10) with { Adapter = WrenchAdapter.InLine(45) };
        var answer = ToolChoice.Judge(task, Small, Today);
        // 9·180/(180 + 45) = 7.2, and 7.25 is the nearest mark.
        Assert.Equal(7.25, answer.SettingNm);
        Assert.Equal(7.25 * 1.25 / 1.04, answer.LeastNm!.Value, 1e-12);
        Assert.Contains(answer.Reasons, each => each.Kind == ToolReasonKind.HandPlace);

        var sideways = ToolChoice.Judge(
            task with
            {
                Adapter = WrenchAdapter.Sideways(45),
            },
            Small,
            Today
        );
        Assert.Equal(9, sideways.SettingNm);
        Assert.DoesNotContain(sideways.Reasons, each => each.Kind == ToolReasonKind.HandPlace);
    }

    [Fact]
    public void Judge_AdapterWithoutArmOrWithADriver_IsRefusedWithTheReason()
    {
        var task = Asked(4, 6) with { Adapter = WrenchAdapter.InLine(45) };
        Assert.Contains(
            ToolChoice.Judge(task, Small with { ArmMm = null }, Today).Reasons,
            each => each.Kind == ToolReasonKind.ArmUnknown
        );
        Assert.Contains(
            ToolChoice
                .Judge(task with { Adapter = WrenchAdapter.Angled(175, Math.PI) }, Small, Today)
                .Reasons,
            each => each.Kind == ToolReasonKind.NoArmLeft
        );
        Assert.Contains(
            ToolChoice.Judge(task, Driver, Today).Reasons,
            each => each.Kind == ToolReasonKind.DriverHasNoLever
        );
    }

    [Fact]
    public void Judge_OneFigureWithoutTolerance_IsMetAndSaysSo()
    {
        var answer = ToolChoice.Judge(Asked(35, 35), Large, Today);
        Assert.Equal(35, answer.SettingNm);
        Assert.Equal(Suitability.Suits, answer.Suitability);
        Assert.Contains(answer.Reasons, each => each.Kind == ToolReasonKind.NoTolerance);
        // A fixed tool that comes as near as its own deviation allows meets it too, but only from below: it may be a maximum.
        Assert.Equal(5, ToolChoice.Judge(Asked(5.1, 5.1), Driver, Today).SettingNm);
        Assert.Null(ToolChoice.Judge(Asked(4.9, 4.9), Driver, Today).SettingNm);
        Assert.Equal(35, ToolChoice.Judge(Asked(35.9, 35.9), Large, Today).SettingNm);
    }

    /// <summary>A wrench with a scale in inches is set on a mark of that scale, and told so.</summary>
    [Fact]
    public void Judge_ToolWithAnotherUnit_IsSetOnItsOwnScale()
    {
        var unit = TorqueUnit.PoundForceInch;
        var tool = Small with
        {
            Unit = unit,
            MinNm = unit.ToNm(30),
            MaxNm = unit.ToNm(200),
            GraduationNm = unit.ToNm(5),
        };
        var answer = ToolChoice.Judge(Asked(8, 10), tool, Today);
        Assert.Equal(80, unit.FromNm(answer.SettingNm!.Value), 1e-6);
        Assert.Contains(
            "80 lbf·in (9.04 N·m)",
            answer.Reasons[0].Sentence,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Judge_ToolThatCannotBe_IsRefusedWithItsField()
    {
        var error = Assert.Throws<ArgumentException>(() =>
            ToolChoice.Judge(Asked(8, 10), Small with { MaxNm = -1 }, Today)
        );
        Assert.StartsWith("max", error.Message, StringComparison.Ordinal);
    }
}
