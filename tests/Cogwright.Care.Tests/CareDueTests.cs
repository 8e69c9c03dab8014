using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Measurement;
using static Cogwright.Care.Tests.ElongationTests;

namespace Cogwright.Care.Tests;

public sealed class CareDueTests
{
    private static readonly DateOnly Today = new(2026, 7, 1);

    private static WearReading At(DateOnly on, double usage, params ReadOnlySpan<double> mm) =>
        Ruler(24, mm) with
        {
            On = on,
            Usage = usage,
        };

    private static WearReading ByCaliper(
        DateOnly on,
        double usage,
        params ReadOnlySpan<double> mm
    ) => At(on, usage, mm) with { StandardUncertainty = 0.05 };

    private static FittedChain Chain(params ReadOnlySpan<WearReading> readings) =>
        new(new DateOnly(2026, 1, 1), 0) { WithNewCogs = true, Readings = [.. readings] };

    private static CareFacts Bike(params ReadOnlySpan<FittedChain> chains) =>
        new() { Cogs = 12, Chains = [.. chains] };

    // 0.02 % per 100 km, read in March, April, May and June.
    private static FittedChain Wearing() =>
        Chain(
            ByCaliper(new(2026, 3, 2), 600, 305.16, 305.17, 305.17),
            ByCaliper(new(2026, 4, 1), 900, 305.35, 305.34, 305.36),
            ByCaliper(new(2026, 5, 1), 1200, 305.53, 305.53, 305.54),
            ByCaliper(new(2026, 6, 1), 1510, 305.72, 305.72, 305.72)
        );

    private static DueItem Only(CareFacts facts, CareTable? table = null) =>
        Assert.Single(CareDue.Of(facts, table ?? CareTable.CommonPractice, Today));

    private static CareFacts Part(CarePart part) => new() { Parts = [part] };

    [Fact]
    public void Chain_WearingEvenly_IsDueWhereItsLineMeetsTheLimit()
    {
        var facts = Bike(Wearing());
        var care = ChainCare.Of(facts, CareTable.CommonPractice)!;
        var item = Only(facts);

        Assert.Equal(ForecastState.Ahead, care.Forecast.State);
        Assert.Equal(2500, care.Forecast.At!.Usage, 80.0);
        Assert.Equal(care.Forecast.At.Earliest, item.Usage!.Value, 1e-9);
        Assert.True(item.Day > Today && item.Day <= item.LatestDay);
        Assert.Equal(Verdict.Within, item.Verdict);
    }

    [Fact]
    public void Chain_Replaced_BeginsAnew()
    {
        var facts = Bike(Wearing(), new FittedChain(new DateOnly(2026, 6, 10), 1600));
        var care = ChainCare.Of(facts, CareTable.CommonPractice)!;

        Assert.Null(care.Elongation);
        Assert.Equal(ForecastState.TooFew, care.Forecast.State);
        Assert.Equal(DueState.CannotSay, Only(facts).State);
        Assert.Equal(
            new TrendPoint(1600, 0, ChainCare.NewChainPercent),
            Assert.Single(ChainCare.PointsOf(facts.Chains[1]))
        );
    }

    [Fact]
    public void Chain_NotFittedNew_HasNoPointAtZero() =>
        Assert.Empty(ChainCare.PointsOf(new FittedChain(null, 0) { WasNew = false }));

    [Fact]
    public void Chain_OneReading_CannotSayWhen()
    {
        var item = Only(Bike(Chain(At(new(2026, 3, 2), 600, 305.16))));

        Assert.Equal(DueState.CannotSay, item.State);
        Assert.Null(item.Day);
        Assert.Contains("cannot be said", item.Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(308.0, DueState.Due, Verdict.Outside)]
    [InlineData(306.3, DueState.Due, Verdict.TooCloseToCall)]
    public void Chain_NotWithin_IsDueNow(double mm, DueState state, Verdict verdict)
    {
        var item = Only(Bike(Chain(At(new(2026, 6, 2), 600, mm))));

        Assert.Equal((state, verdict), (item.State, item.Verdict!.Value));
    }

    [Fact]
    public void Outlook_OldChainInTime_RunsButIsTested()
    {
        var outlook = NewChainOutlook.Of(Bike(Wearing()), CareTable.CommonPractice);

        Assert.Equal(NewChainAnswer.WillRun, outlook.Answer);
        Assert.StartsWith("WARNING", outlook.Caution, StringComparison.Ordinal);
        Assert.Contains("under load", outlook.Test, StringComparison.Ordinal);
    }

    public static TheoryData<string, NewChainAnswer> Outlooks =>
        new()
        {
            { "nothing", NewChainAnswer.MaySkip },
            { "unmeasured", NewChainAnswer.MaySkip },
            { "close", NewChainAnswer.MaySkip },
            { "late", NewChainAnswer.MaySkip },
            { "about one percent", NewChainAnswer.MaySkip },
            { "worn", NewChainAnswer.WillSkip },
            { "worn before", NewChainAnswer.WillSkip },
            { "third chain", NewChainAnswer.MaySkip },
            { "cogs unknown", NewChainAnswer.MaySkip },
            { "ridden on", NewChainAnswer.MaySkip },
            { "ridden on before", NewChainAnswer.MaySkip },
        };

    [Theory]
    [MemberData(nameof(Outlooks))]
    public void Outlook_IsNeverSurerThanTheFacts(string given, NewChainAnswer expected)
    {
        static FittedChain Of(double mm) => Chain(At(new(2026, 6, 2), 600, mm, mm, mm));
        static FittedChain Next(double mm) => Of(mm) with { WithNewCogs = false };
        var facts = given switch
        {
            "nothing" => Bike(),
            "unmeasured" => Bike(Chain()),
            "close" => Bike(Of(306.3)),
            "late" => Bike(Of(307)),
            "about one percent" => Bike(Of(307.9)),
            "worn" => Bike(Of(309)),
            "worn before" => Bike(Of(309), Next(305.2)),
            "third chain" => Bike(Of(305.2), Next(305.2), Next(305.2)),
            // Last read long before its limit, and then ridden far past where its line meets it.
            "ridden on" => Bike(Wearing()) with
            {
                Parts =
                [
                    new(CareKind.Fasteners, CarePlace.Bike, new(2026, 6, 28)) { Usage = 4000 },
                ],
            },
            "ridden on before" => Bike(
                Wearing(),
                Next(305.2) with
                {
                    On = new(2026, 6, 28),
                    Usage = 4000,
                }
            ),
            _ => Bike(Next(305.2)),
        };

        var outlook = NewChainOutlook.Of(facts, CareTable.CommonPractice);

        Assert.Equal(expected, outlook.Answer);
        Assert.NotEmpty(outlook.Reasons);
    }

    /// <summary>A shop that lets chains run to 1.5 % has not thereby proven that its cogs last.</summary>
    [Fact]
    public void Outlook_LimitBeyondWhereCogsAreWorn_IsNotSurerForIt()
    {
        var table = new CareTable
        {
            Chain = new() { Own = WearLimits.CommonPractice.Own.Add(12, 1.5) },
        };
        var chain = Chain(At(new(2026, 6, 2), 600, 307.8, 307.8, 307.8));
        var care = ChainCare.Of(Bike(chain), table)!;

        Assert.Equal(Verdict.Within, care.Judgement!.Verdict);
        Assert.Equal(NewChainAnswer.MaySkip, NewChainOutlook.Of(Bike(chain), table).Answer);
    }

    [Fact]
    public void Outlook_NewCogs_ForgetWhatTheOldBore()
    {
        var facts = Bike(
            Chain(At(new(2026, 2, 2), 600, 310.0)),
            Chain(At(new(2026, 6, 2), 900, 305.2, 305.2, 305.2))
        );

        Assert.Equal(
            NewChainAnswer.WillRun,
            NewChainOutlook.Of(facts, CareTable.CommonPractice).Answer
        );
    }

    [Fact]
    public void Rotor_StampedMinimum_WinsOverCommonPractice()
    {
        var part = new CarePart(CareKind.Rotor, CarePlace.Front, new(2026, 6, 1)) { Value = 1.6 };

        Assert.Equal(Verdict.Within, Only(Part(part)).Verdict);
        var stamped = Only(Part(part with { StampedMm = 1.7 }));
        Assert.Equal((Verdict.Outside, DueState.Due), (stamped.Verdict!.Value, stamped.State));
        Assert.Contains("stamped", stamped.From, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1.5, Verdict.Within)]
    [InlineData(0.55, Verdict.TooCloseToCall)]
    [InlineData(0.2, Verdict.Outside)]
    public void Pad_AgainstHalfAMillimetre_KnowsItsGauge(double mm, Verdict verdict) =>
        Assert.Equal(
            verdict,
            Only(
                Part(new(CareKind.Pad, CarePlace.Rear, new(2026, 6, 1)) { Value = mm, Usage = 100 })
            ).Verdict
        );

    [Fact]
    public void Pad_ReadSeveralTimes_IsForecastAndANewOneBeginsAnew()
    {
        static CarePart Pad(int month, double km, double mm) =>
            new(CareKind.Pad, CarePlace.Front, new(2026, month, 1))
            {
                Usage = km,
                Value = mm,
                StandardUncertainty = 0.05,
            };
        ImmutableArray<CarePart> worn =
        [
            Pad(1, 0, 4.0) with
            {
                IsNew = true,
            },
            Pad(3, 1000, 3.0),
            Pad(5, 2000, 2.0),
            Pad(6, 2500, 1.5),
        ];
        var item = Only(new() { Parts = worn });
        var fresh = Only(new() { Parts = worn.Add(Pad(6, 2550, 4.0) with { IsNew = true }) });

        Assert.InRange(item.Usage!.Value, 3000, 3500);
        Assert.InRange(item.LatestUsage!.Value, 3500, 4000);
        Assert.Null(fresh.Usage);
        Assert.Equal(DueState.CannotSay, fresh.State);
    }

    [Fact]
    public void WirelessBattery_Hours_CountFromItsCharge()
    {
        var part = new CarePart(CareKind.WirelessBattery, CarePlace.Rear, new(2026, 6, 1))
        {
            Value = 50,
            Usage = 100,
        };
        var hours = Only(Part(part) with { Unit = UsageUnit.Hours });
        var km = Only(Part(part));

        Assert.Equal(130, hours.Usage!.Value, 1e-9);
        Assert.Equal(100 + 30 * 20, km.Usage!.Value, 1e-9);
        Assert.DoesNotContain("km/h", hours.Why, StringComparison.Ordinal);
        Assert.Contains("20 km/h, from memory", km.Why, StringComparison.Ordinal);
        // Below the 80 % of a handover.
        Assert.Equal(Verdict.Outside, km.Verdict);
        Assert.Equal(Verdict.Within, Only(Part(part with { Value = 80 })).Verdict);
    }

    [Fact]
    public void Battery_WithoutCounter_CannotSayWhen() =>
        Assert.Equal(
            DueState.CannotSay,
            Only(
                Part(new(CareKind.WiredBattery, CarePlace.Bike, new(2026, 6, 1)) { Value = 100 })
            ).State
        );

    /// <summary>Battery Level 0x2A19: 0 to 100; 101 to 255 are reserved (Bluetooth's characteristic).</summary>
    [Theory]
    [InlineData(0.0, true)]
    [InlineData(100.0, true)]
    [InlineData(101.0, false)]
    [InlineData(255.0, false)]
    [InlineData(-1.0, false)]
    [InlineData(50.5, false)]
    [InlineData(double.NaN, false)]
    public void Battery_Charge_IsAWholePercentage(double value, bool isFine) =>
        Assert.Equal(
            isFine,
            new CarePart(CareKind.WirelessBattery, CarePlace.Rear, Today) { Value = value }
                .Problems()
                .IsEmpty
        );

    [Theory]
    [InlineData(CareKind.CoinCell)]
    [InlineData(CareKind.Cable)]
    public void Yearly_Part_IsDueAYearLater(CareKind kind)
    {
        var item = Only(Part(new(kind, CarePlace.Left, new(2025, 7, 15))));

        Assert.Equal((new DateOnly(2026, 7, 15), DueState.Soon), (item.Day!.Value, item.State));
        Assert.Equal(DueState.Due, Only(Part(new(kind, CarePlace.Left, new(2025, 7, 1)))).State);
    }

    [Fact]
    public void CoinCell_ShopsOwnMonths_Win()
    {
        var table = new CareTable
        {
            Own = CareTable.CommonPractice.Own.Add(CareTerm.CoinCellMonths.Name, 24),
        };
        var item = Only(Part(new(CareKind.CoinCell, CarePlace.Left, new(2025, 7, 15))), table);

        Assert.Equal(new DateOnly(2027, 7, 15), item.Day);
        Assert.Contains("shop's own", item.From, StringComparison.Ordinal);
    }

    [Fact]
    public void QuickLink_NoMakersFigure_CannotSayAndIsUsedOnce()
    {
        var part = new CarePart(CareKind.QuickLink, CarePlace.Bike, new(2026, 6, 1)) { Count = 1 };
        var unknown = Only(Part(part));
        var known = Only(Part(part with { MakersCount = 3 }));
        var used = Only(Part(part with { Count = 4, MakersCount = 3 }));

        Assert.Equal(DueState.CannotSay, unknown.State);
        Assert.Contains("single use is assumed", unknown.Why, StringComparison.Ordinal);
        Assert.Contains("new one", unknown.What, StringComparison.Ordinal);
        Assert.Contains("closed again", known.What, StringComparison.Ordinal);
        Assert.Equal(DueState.Due, used.State);
        Assert.Equal(DueState.Due, Only(Part(part with { Count = 2 })).State);
    }

    [Fact]
    public void Fasteners_FirstAndFurtherRechecks()
    {
        var part = new CarePart(CareKind.Fasteners, CarePlace.Bike, new(2026, 6, 1))
        {
            Usage = 1000,
        };
        var first = Only(Part(part));
        var further = Only(Part(part with { Count = 1 }));

        Assert.Equal((1100.0, 1300.0), (first.Usage!.Value, first.LatestUsage!.Value));
        Assert.Equal(3000.0, further.Usage!.Value);
        Assert.Null(further.LatestUsage);
    }

    [Fact]
    public void FirstCheck_ByDaysOrUse_WhicheverComesFirst()
    {
        var handed = new CarePart(CareKind.FirstCheck, CarePlace.Bike, new(2026, 6, 20))
        {
            Usage = 1000,
        };
        var before = handed with { On = new(2026, 3, 1), Usage = 0, Kind = CareKind.Fasteners };
        var slow = Only(Part(handed));
        var fast = CareDue
            .Of(new() { Parts = [before, handed] }, CareTable.CommonPractice, Today)
            .Single(item => item.Kind == CareKind.FirstCheck);

        Assert.Equal(new DateOnly(2026, 7, 20), slow.Day);
        // 9 km a day: 200 km (10 h at 20 km/h) take 22 days.
        Assert.Equal(new DateOnly(2026, 7, 12), fast.Day);
    }

    /// <summary>A slip of the pen in a year must not stop the page that shows it for ever.</summary>
    [Theory]
    [InlineData("9999-12-31", false)]
    [InlineData("0026-03-02", false)]
    [InlineData("1999-12-31", true)]
    public void Part_DayOfAYearThatCannotBe_IsAProblem(string day, bool isFine)
    {
        var part = new CarePart(
            CareKind.Cable,
            CarePlace.Rear,
            DateOnly.Parse(day, CultureInfo.InvariantCulture)
        );

        Assert.Equal(isFine, !part.Problems().Any(problem => problem.Field == "on"));
    }

    [Fact]
    public void Day_BeyondTheLastThatCanBeWritten_CannotBeSaid() =>
        Assert.Null(UsageRate.Of([(new(9999, 1, 1), 0), (new(9999, 12, 1), 100)])!.DayOf(200));

    [Fact]
    public void Due_MostUrgent_ComesFirst()
    {
        var facts = Bike(Wearing()) with
        {
            Parts =
            [
                new(CareKind.QuickLink, CarePlace.Bike, new(2026, 6, 1)),
                new(CareKind.CoinCell, CarePlace.Left, new(2025, 7, 15)),
                new(CareKind.CoinCell, CarePlace.Right, new(2025, 1, 15)),
            ],
        };

        var states = CareDue
            .Of(facts, CareTable.CommonPractice, Today)
            .Select(item => item.State)
            .ToList();

        Assert.Equal([DueState.Due, DueState.Soon, DueState.Later, DueState.CannotSay], states);
    }

    [Fact]
    public void Due_BikeOfWhichNothingIsKnown_IsEmpty() =>
        Assert.Empty(CareDue.Of(new(), CareTable.CommonPractice, Today));

    [Fact]
    public void Terms_CommonPractice_SaysWhereItIsFrom()
    {
        foreach (var term in CareTerm.All)
        {
            Assert.Null(term.Problem(term.Usual));
            Assert.NotNull(term.Problem(double.NaN));
            Assert.Same(term, CareTerm.Find(term.Name));
            Assert.Matches("common practice|from memory", term.From);
            Assert.NotEmpty(term.Title);
        }
        foreach (var kind in Enum.GetValues<CareKind>())
        {
            Assert.NotEmpty(CareDue.Title(kind));
        }
    }
}
