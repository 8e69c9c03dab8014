namespace Cogwright.Care.Tests;

public sealed class ElongationTests
{
    private static readonly DateOnly Day = new(2026, 3, 1);

    internal static WearReading Ruler(int pitches, params ReadOnlySpan<double> lengthsMm) =>
        new(
            Day,
            null,
            WearWay.Ruler,
            pitches,
            [.. lengthsMm.ToArray().Select(mm => new WearSpot { LengthMm = mm })]
        );

    internal static WearReading Gauge(WearWay way, int pitches, double percent) =>
        new(Day, null, way, pitches, [new() { Percent = percent }]);

    internal static WearReading Class(WearWay way, int pitches, double? goes, double? stops) =>
        new(Day, null, way, pitches, [new() { GoesPercent = goes, StopsPercent = stops }]);

    /// <summary>Published rules of thumb, each with the percentage that its own numbers give (to 0.0005).</summary>
    [Theory]
    [InlineData(24, 12 + 1.0 / 16, 0.5208)] // 24 pitches, +1/16 in: pushbikes.org.uk
    [InlineData(24, 12 + 1.0 / 8, 1.0417)] // 1/8 in: common practice, "1.04 %"
    [InlineData(24, 12.1, 0.8333)] // 2/20 in over 12 in, "about 0.83 %": mrbill.homeip.net
    [InlineData(20, 10 + 1.0 / 16, 0.625)]
    public void Ruler_Inches_GiveThePublishedPercent(int pitches, double inches, double percent) =>
        Assert.Equal(percent, Ruler(pitches, inches * 25.4).Elongation().Percent!.Value, 0.0005);

    /// <summary>0.5, 0.75 and 1 % over 12 in: common practice, to the hundredth of a millimetre.</summary>
    [Theory]
    [InlineData(0.5, 1.52)]
    [InlineData(0.75, 2.29)]
    [InlineData(1.0, 3.05)]
    public void Ruler_TwelveInches_GrowByTheTradesMillimetres(double percent, double mm) =>
        Assert.Equal(percent, Ruler(24, 304.8 + mm).Elongation().Percent!.Value, 0.002);

    /// <summary>
    /// One page gives 254 to 256 mm, 10 1/16 in and "0.7 %" for the same 20 pitches (contoursofacountry.com). Its numbers do not
    /// agree with one another, and none of ours may agree with its 0.7.
    /// </summary>
    [Fact]
    public void Ruler_PageWhoseNumbersDisagree_IsNotFollowed()
    {
        var byMm = Ruler(20, 256).Elongation().Percent!.Value;
        var byInch = Ruler(20, 10.0625 * 25.4).Elongation().Percent!.Value;

        Assert.Equal(0.787, byMm, 0.001);
        Assert.Equal(0.625, byInch, 0.001);
        Assert.True(Math.Abs(byMm - 0.7) > 0.05 && Math.Abs(byInch - 0.7) > 0.05);
    }

    /// <summary>
    /// 12 1/16 in is 306.4 mm and "0.5 %" (pushbikes.org.uk; 1/16/12 = 0.5208 %). Rounded down to 306 mm, as it is handed on, it is
    /// 0.394 %: a chain of 306 mm must not be told as one of 0.5 %.
    /// </summary>
    [Fact]
    public void Ruler_MarkRoundedToWholeMillimetres_IsNotTheMark()
    {
        Assert.Equal(
            0.5208,
            Ruler(24, (12 + 1.0 / 16) * 25.4).Elongation().Percent!.Value,
            0.00005
        );
        var rounded = Ruler(24, 306).Elongation().Percent!.Value;
        Assert.Equal(0.394, rounded, 0.0005);
        Assert.True(rounded < 0.45);
    }

    /// <summary>
    /// Chains of machines: 3 %, and 200/N % on sprockets over 66 teeth (a chain maker's page after ANSI B29.1 and B29.3). Bicycle
    /// sprockets stay below, 52 teeth at min(3, 3.85) = 3 %, so no shop may set more.
    /// </summary>
    [Fact]
    public void Limit_OfMachines_IsTheMostThatAShopMaySet()
    {
        Assert.Equal(WearLimits.MostPercent, Math.Min(3, 200 / 52.0));
        Assert.Null(WearLimits.Problem(1, 3));
        Assert.NotNull(WearLimits.Problem(1, 3.01));
    }

    /// <summary>21 pins are 20 pitches: 254 mm, replaced at 255 mm (roadragecycling.com), 0.394 %.</summary>
    [Fact]
    public void Ruler_PinsCounted_AreOnePitchLess()
    {
        Assert.Equal(254, ChainPitch.LengthMm(21 - 1), 1e-9);
        Assert.Equal(0.394, Ruler(20, 255).Elongation().Percent!.Value, 0.0005);
    }

    [Fact]
    public void Ruler_Longer_IsSurer()
    {
        var one = Ruler(12, 153).Elongation().StandardUncertainty;
        var two = Ruler(24, 306).Elongation().StandardUncertainty;

        Assert.Equal(WearReading.RulerMm / 304.8 * 100, two, 1e-12);
        Assert.Equal(2, one / two, 1e-9);
    }

    /// <summary>A two-point gauge over-reports by the play of its rollers; a three-point one does not (common practice).</summary>
    [Fact]
    public void TwoPoint_SameChain_ReadsMoreByThePlayAndIsCorrected()
    {
        const double TruePercent = 0.45;
        const double PlayMm = 0.2;
        var play = new RollerPlay(PlayMm, 0.01, 0);
        var shown = TruePercent + PlayMm / (8 * 12.7) * 100;
        var two = Gauge(WearWay.TwoPoint, 8, shown) with { Play = play };
        var three = Gauge(WearWay.ThreePoint, 8, TruePercent) with { Play = play };

        Assert.True(shown > 0.64);
        Assert.Equal(TruePercent, two.Elongation().Percent!.Value, 1e-9);
        Assert.Equal(TruePercent, three.Elongation().Percent!.Value, 1e-9);
        Assert.True(
            two.Elongation().SharedUncertainty > 0 && three.Elongation().SharedUncertainty == 0
        );
    }

    [Fact]
    public void TwoPoint_PlayNobodyMeasured_MakesTheReadingLessSure()
    {
        var assumed = Gauge(WearWay.TwoPoint, 8, 0.6);
        var known = assumed with { Play = new(0.15, 0.01) };

        Assert.True(assumed.ReckonedPlay.IsAssumed);
        Assert.Equal(assumed.Elongation().Percent!.Value, known.Elongation().Percent!.Value, 1e-9);
        Assert.True(
            assumed.Elongation().StandardUncertainty > 1.8 * known.Elongation().StandardUncertainty
        );
    }

    /// <summary>The model of the play against its naive twin: rollers drawn one by one and pushed.</summary>
    [Fact]
    public void RollerPlay_OfManyPairs_AgreesWithRollersPushedOneByOne()
    {
        var random = new Random(20261130);
        const int Pairs = 40_000;
        var (apart, alike, square) = (0.0, 0.0, 0.0);
        for (var i = 0; i < Pairs; i++)
        {
            double Clearance() => 0.2 + 0.04 * Math.Sqrt(12) * (random.NextDouble() - 0.5);
            var (first, second) = (Clearance(), Clearance());
            // Centres move by half the clearance: outward both, or both to the right.
            apart += first / 2 + second / 2;
            var same = second / 2 - first / 2;
            alike += same;
            square += same * same;
        }

        Assert.Equal(0.2, apart / Pairs, 0.001);
        Assert.Equal(0, alike / Pairs, 0.001);
        Assert.Equal(0.04 / Math.Sqrt(2), Math.Sqrt(square / Pairs), 0.001);
    }

    [Fact]
    public void Combine_Spots_TakesMeanAndTheGreaterOfGivenAndSeen()
    {
        var alike = Elongation.Combine([
            Elongation.Of(0.5, 0.08),
            Elongation.Of(0.5, 0.08),
            Elongation.Of(0.5, 0.08),
            Elongation.Of(0.5, 0.08),
        ]);
        var apart = Elongation.Combine([
            Elongation.Of(0.3, 0.01, 0.05, "g"),
            Elongation.Of(0.7, 0.01, 0.05, "g"),
        ]);

        Assert.Equal(0.04, alike.OwnUncertainty, 1e-12);
        Assert.Equal(0.5, apart.Percent!.Value, 1e-12);
        // s = 0.2828, over √2; what is shared does not average out.
        Assert.Equal(0.2, apart.OwnUncertainty, 1e-9);
        Assert.Equal(0.05, apart.SharedUncertainty, 1e-12);
    }

    [Fact]
    public void Class_ThreePoint_LiesBetweenItsEdges()
    {
        var found = Class(WearWay.ThreePointClass, 12, 0.5, 0.75).Elongation();

        Assert.Equal((0.5, 0.75), (found.LowerPercent!.Value, found.UpperPercent!.Value));
        Assert.Equal(0.625, found.Reading!.Value, 1e-12);
        Assert.True(found.Reading.StandardUncertainty > 0.25 / Math.Sqrt(12));
    }

    [Fact]
    public void Class_Open_HasNoReading()
    {
        var found = Class(WearWay.ThreePointClass, 12, 1.0, null).Elongation();

        Assert.Null(found.Reading);
        Assert.Null(found.UpperPercent);
        Assert.Equal(1.0, found.LowerPercent!.Value, 1e-12);
    }

    [Theory]
    [InlineData(200)] // 20 pitches written as 24
    [InlineData(330)]
    [InlineData(double.NaN)]
    public void Ruler_LengthThatIsNoChain_IsRefused(double mm) =>
        Assert.Throws<ArgumentException>(() => Ruler(24, mm).Elongation());

    [Fact]
    public void Reading_WithoutWhatItsWayNeeds_IsRefused()
    {
        Assert.Throws<ArgumentException>(() =>
            new WearReading(Day, null, WearWay.TwoPoint, 8, [new() { LengthMm = 101 }]).Elongation()
        );
        Assert.Throws<ArgumentException>(() =>
            Class(WearWay.TwoPointClass, 8, null, null).Elongation()
        );
        Assert.Throws<ArgumentException>(() =>
            Class(WearWay.ThreePointClass, 8, 0.75, 0.5).Elongation()
        );
        Assert.Throws<ArgumentException>(() => Ruler(2, 25.5).Elongation());
        Assert.Throws<ArgumentException>(() => Ruler(24).Elongation());
    }
}
