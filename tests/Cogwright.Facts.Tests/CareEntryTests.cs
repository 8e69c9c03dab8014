using System.Collections.Immutable;
using System.Text;
using Cogwright.Care;
using Cogwright.Log;
using CsCheck;

namespace Cogwright.Facts.Tests;

public sealed class CareEntryTests
{
    private static readonly LogId Bike = new(Guid.CreateVersion7());
    private static readonly DeviceId Device = new(new Guid("018f0000-0000-7000-8000-0000000000d1"));
    private static readonly DateOnly Day = new(2026, 3, 2);

    private static EntryLog LogOf(params ReadOnlySpan<EntryDraft> drafts)
    {
        var log = new EntryLog(Bike);
        EntryId? last = null;
        foreach (var draft in drafts)
        {
            var stamp = EntryStamp.Next(
                last,
                638_000_000_000_000_000,
                new byte[EntryId.RandomBytes]
            );
            var entry = log.Prepare(Device, stamp, draft with { Author = "device:1" }).Value!;
            log.Add(entry);
            last = entry.Id;
        }
        return log;
    }

    private static BikeState StateOf(params ReadOnlySpan<EntryDraft> drafts) =>
        new LiveFold<BikeState>(LogOf(drafts), new BikeFold()).State;

    private static WearReading Reading(int day, double usage, params ReadOnlySpan<double> mm) =>
        new(
            new(2026, 3, day),
            usage,
            WearWay.Ruler,
            24,
            [.. mm.ToArray().Select(each => new WearSpot { LengthMm = each })]
        );

    private static string Text(EntryDraft draft) => Encoding.UTF8.GetString(draft.Body.Span);

    [Fact]
    public void Bodies_AreTheCanonicalJsonOfTheManual()
    {
        Assert.Equal(
            """{"at":"1000.5","day":"2026-03-02","newCogs":"true"}""",
            Text(CareEntry.Draft(new FittedChain(Day, 1000.5) { WithNewCogs = true }))
        );
        Assert.Equal(
            """{"at":"1200","day":"2026-03-02","pitches":"24","spots":"305.1 305.2","way":"ruler"}""",
            Text(CareEntry.Draft(Reading(2, 1200, 305.1, 305.2)))
        );
        Assert.Equal(
            """{"day":"2026-03-02","pitches":"8","play":"0.2","playU":"0.05","spots":"0.5/- -/0.5","u":"0.02","way":"twoPointClass"}""",
            Text(
                CareEntry.Draft(
                    new WearReading(
                        Day,
                        null,
                        WearWay.TwoPointClass,
                        8,
                        [new() { GoesPercent = 0.5 }, new() { StopsPercent = 0.5 }]
                    )
                    {
                        Play = new(0.2, 0.05),
                        StandardUncertainty = 0.02,
                    }
                )
            )
        );
        Assert.Equal(
            """{"day":"2026-03-02","kind":"rotor","place":"front","stamped":"1.5","value":"1.6"}""",
            Text(
                CareEntry.Draft(
                    new CarePart(CareKind.Rotor, CarePlace.Front, Day)
                    {
                        Value = 1.6,
                        StampedMm = 1.5,
                    }
                )
            )
        );
        Assert.Equal("""{"unit":"hours"}""", Text(CareEntry.Draft(UsageUnit.Hours)));
        var table = new CareTable
        {
            Own = CareTable.CommonPractice.Own.Add("pad", 1),
            Chain = new() { Own = WearLimits.CommonPractice.Own.Add(9, 0.75).Add(10, 0.6) },
        };
        Assert.Equal(
            """{"chain-10":"0.6","chain-9":"0.75","pad":"1"}""",
            Text(CareEntry.Draft(table))
        );
    }

    [Fact]
    public void State_OfEntries_IsWhatWasEntered()
    {
        var part = new CarePart(CareKind.QuickLink, CarePlace.Bike, Day)
        {
            Count = 2,
            MakersCount = 5,
        };
        var state = StateOf(
            CareEntry.Draft(new FittedChain(Day, 100) { WithNewCogs = true }),
            CareEntry.Draft(Reading(20, 900, 305.2)),
            CareEntry.Draft(Reading(10, 500, 305.1)),
            CareEntry.Draft(part),
            CareEntry.Draft(UsageUnit.Hours),
            CareEntry.Draft(new FittedChain(new(2026, 4, 1), 1000)),
            CareEntry.Draft(Reading(30, 1100, 305.0))
        );

        Assert.Empty(state.NotUnderstood);
        Assert.Equal(UsageUnit.Hours, state.Care.Unit);
        Assert.Equal([part], state.Care.Parts.Select(each => each with { Id = "" }));
        Assert.Equal(2, state.Care.Chains.Length);
        // What was remembered later stands where its day is.
        Assert.Equal(
            [500.0, 900.0],
            state.Care.Chains[0].Readings.Select(each => each.Usage!.Value)
        );
        Assert.Equal(1100, Assert.Single(state.Care.Chains[1].Readings).Usage);
    }

    [Fact]
    public void Reading_OnAChainNobodyEntered_IsJudgedWithoutAPointAtZero()
    {
        var chain = Assert.Single(StateOf(CareEntry.Draft(Reading(2, 900, 305.2))).Care.Chains);

        Assert.False(chain.WasNew);
        Assert.Single(ChainCare.PointsOf(chain));
    }

    [Fact]
    public void Reading_PlayWithoutItsUncertainty_IsNoSurerThanAnAssumedOne()
    {
        var draft = new EntryDraft(
            "",
            "care.reading",
            1,
            Encoding.UTF8.GetBytes(
                """{"day":"2026-03-02","pitches":"8","play":"0.16","spots":"0.4","way":"twoPoint"}"""
            )
        );
        var reading = Assert.Single(Assert.Single(StateOf(draft).Care.Chains).Readings);

        Assert.Equal(0.16, reading.Play!.Mm);
        Assert.Equal(
            RollerPlay.Assumed.StandardUncertaintyMm,
            reading.Play.StandardUncertaintyMm,
            1e-12
        );
    }

    /// <summary>The same reading on 9 and on 12 cogs: the spec's own cogs choose the limit.</summary>
    [Theory]
    [InlineData("11-12-14-16-18-21-24-28-32", 0.75)]
    [InlineData("[10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51]", 0.5)]
    [InlineData(null, 0.5)]
    public void Due_OfABikesLog_KnowsItsCogs(string? teeth, double limit)
    {
        var spec = SpecEntry.Draft(
            new(
                "cogs",
                ImmutableSortedDictionary
                    .Create<string, string?>(StringComparer.Ordinal)
                    .Add("cogs.teeth", teeth)
            )
        );
        var bike = StateOf(spec, CareEntry.Draft(Reading(2, 900, 307, 307, 307)));
        var item = Assert.Single(BikeCare.DueOf(bike, null, Day));

        Assert.Contains($"limit of {limit:0.0#} %", item.Why, StringComparison.Ordinal);
        Assert.Equal(DueState.Due, item.State);
    }

    [Fact]
    public void Reading_TakenBack_IsGone()
    {
        var log = LogOf(
            CareEntry.Draft(new FittedChain(Day, 100)),
            CareEntry.Draft(Reading(20, 900, 309))
        );
        var wrong = log[^1];
        var stamp = EntryStamp.Next(
            wrong.Id,
            638_000_000_000_000_000,
            new byte[EntryId.RandomBytes]
        );
        log.Add(
            log.Prepare(
                Device,
                stamp,
                JobEntry.TakeBack(wrong.Id, "of another bike") with
                {
                    Author = "device:1",
                }
            ).Value!
        );

        Assert.Empty(
            Assert.Single(new LiveFold<BikeState>(log, new BikeFold()).State.Care.Chains).Readings
        );
    }

    [Fact]
    public void Table_OfTheShop_ComesBackAndTheLastOneStands()
    {
        var table = new CareTable
        {
            Own = CareTable.CommonPractice.Own.Add("pad", 1).Add("speedKmh", 18),
            Chain = new()
            {
                Own = WearLimits.CommonPractice.Own.Add(10, 0.6),
                CogsTooPercent = 0.9,
            },
        };
        var state = StateOf(CareEntry.Draft(CareTable.CommonPractice), CareEntry.Draft(table));

        Assert.Equal(table.Own, state.CareTable.Own);
        Assert.Equal(table.Chain.Own, state.CareTable.Chain.Own);
        Assert.Equal(0.9, state.CareTable.Chain.CogsTooPercent);
        Assert.Same(CareTable.CommonPractice, StateOf().CareTable);
    }

    /// <summary>What a later or a broken program wrote is kept and never stops the bike.</summary>
    [Theory]
    [InlineData(
        "care.reading",
        """{"day":"2026-03-02","way":"ruler","pitches":"24","spots":"999"}"""
    )]
    [InlineData("care.reading", """{"day":"2026-03-02","way":"ruler","pitches":"24"}""")]
    [InlineData(
        "care.reading",
        """{"day":"2026-03-02","way":"ruler","pitches":"1e6","spots":"305"}"""
    )]
    [InlineData(
        "care.reading",
        """{"day":"2026-03-02","way":"laser","pitches":"24","spots":"305"}"""
    )]
    [InlineData("care.reading", """{"way":"ruler","pitches":"24","spots":"305"}""")]
    [InlineData("care.reading", """{"day":7}""")]
    [InlineData("care.part", """{"day":"2026-03-02","kind":"chain"}""")]
    [InlineData("care.part", """{"day":"2026-03-02","kind":"wirelessBattery","value":"101"}""")]
    [InlineData("care.part", "[]")]
    [InlineData("care.counter", """{"unit":"miles"}""")]
    [InlineData("care.chain", "nothing")]
    [InlineData("care.other", "{}")]
    [InlineData("care.limits", "[]")]
    public void Entry_ThatCannotBe_IsKeptAndNotUnderstood(string kind, string body)
    {
        var state = StateOf(new EntryDraft("", kind, 1, Encoding.UTF8.GetBytes(body)));

        Assert.Single(state.NotUnderstood);
        Assert.Empty(state.Care.Chains);
        Assert.Empty(state.Care.Parts);
    }

    [Fact]
    public void Limits_OutOfRange_AreLeftOut()
    {
        var state = StateOf(
            new EntryDraft(
                "",
                "care.limits",
                1,
                """{"chain-10":"9","chain-99":"0.5","cogsToo":"0","pad":"1","rotor":"-1"}"""u8.ToArray()
            )
        );

        Assert.Equal(["pad"], state.CareTable.Own.Keys);
        Assert.Empty(state.CareTable.Chain.Own);
        Assert.Equal(WearLimits.UsualCogsToo, state.CareTable.Chain.CogsTooPercent);
    }

    [Fact]
    public void Part_ThroughAnEntryAndBack_IsTheSame() =>
        Gen.Select(
                Gen.Int[1, 10],
                Gen.Int[0, 4],
                Gen.Double[0, 10],
                Gen.Double[0, 9000],
                Gen.Int[0, 100]
            )
            .Sample(
                (kind, place, value, usage, count) =>
                {
                    var part = new CarePart((CareKind)kind, (CarePlace)place, Day)
                    {
                        Usage = usage,
                    };
                    part =
                        CarePart.IsBattery(part.Kind) ? part with { Value = count }
                        : CarePart.HasValue(part.Kind)
                            ? part with
                            {
                                Value = value,
                                IsNew = count > 50,
                            }
                        : part.Kind is CareKind.QuickLink or CareKind.Fasteners
                            ? part with
                            {
                                Count = count,
                            }
                        : part;
                    Assert.Equal(
                        [part],
                        StateOf(CareEntry.Draft(part))
                            .Care.Parts.Select(each => each with { Id = "" })
                    );
                },
                iter: 200
            );
}
