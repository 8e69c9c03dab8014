using System.Globalization;
using Cogwright.Drivetrain;
using Cogwright.Parts;
using Cogwright.Setup;
using Json.Schema;

namespace Cogwright.Files.Tests;

/// <summary>The demo workshop's parts make whole bikes of every type, and a mechanic would believe what they give.</summary>
public sealed class DemoPartsTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(
        PartsSchema.ToJson().Replace("cogwright:parts", "cogwright:demo-parts", default)
    );

    private static readonly Dictionary<string, string> Bikes = new()
    {
        ["road-motor"] = """
            name: Road, motor
            parts:
              frame: marl-road-race
              hanger: ox-hanger-r1
              rearWheel: skel-142-road-spline-37
              cassette: pell-12-11-34
              chain: ox-chain-12
              bottomBracket: quill-bb-86-24
              crank: quill-road-disc-110
              rings: quill-50-34
              rearDerailleur: varn-12-motor
              frontDerailleur: varn-front-motor
              rearShifter: varn-lever-motor
              frontShifter: varn-front-lever-motor
            """,
        ["road-cable"] = """
            name: Road, cable
            parts:
              frame: marl-road-rim
              hanger: ox-hanger-r2
              rearWheel: skel-130-spline-37
              cassette: pell-11-11-28
              chain: ox-chain-11
              bottomBracket: quill-bb-68-24
              crank: quill-road-110
              rings: quill-52-36
              rearDerailleur: varn-11-short
              frontDerailleur: varn-front-road
              rearShifter: varn-lever-11
              frontShifter: varn-front-lever
            """,
        ["gravel"] = """
            name: Gravel
            parts:
              frame: marl-gravel-long
              hanger: ox-hanger-inter
              rearWheel: skel-142-gravel-spline-37
              cassette: dun-11-11-42
              chain: ox-chain-11
              bottomBracket: quill-bb-86-24
              crank: quill-gravel-1
              rings: quill-8-40
              rearDerailleur: varn-gravel-11
              rearShifter: varn-gravel-lever-11
              adapters: [ox-spacer-1.85]
            """,
        ["trail"] = """
            name: Trail
            parts:
              frame: marl-trail-hardtail
              hanger: ox-hanger-inter
              rearWheel: skel-148-fine-spline-10
              cassette: dun-12-10-51
              chain: dun-chain-12
              bottomBracket: quill-bb-73-30
              crank: dun-trail-52
              rings: dun-3-32
              rearDerailleur: dun-trail-12-motor
              rearShifter: dun-lever-motor
            """,
        ["trail-sprung"] = """
            name: Trail, pivoted rear
            parts:
              frame: marl-trail
              hanger: ox-hanger-inter
              rearWheel: skel-148-fine-spline-10
              cassette: dun-12-10-51
              chain: dun-chain-12
              bottomBracket: quill-bb-73-30
              crank: dun-trail-52
              rings: dun-3-32
              rearDerailleur: dun-trail-12
              rearShifter: dun-shift-12
            """,
        ["touring"] = """
            name: Touring
            parts:
              frame: marl-touring
              rearWheel: skel-135-spline-35
              cassette: pell-9-11-34
              chain: ox-chain-9
              bottomBracket: quill-bb-68-square
              crank: quill-touring-3
              rings: quill-48-36-26
              rearDerailleur: varn-9-long
              frontDerailleur: varn-front-touring
              rearShifter: varn-shift-9
              frontShifter: varn-front-shift-3
            gearsNotUsed: [48/34, 26/11]
            """,
        ["assisted"] = """
            name: Assisted
            parts:
              frame: marl-assisted-trail
              hanger: ox-hanger-inter
              rearWheel: skel-148-strong-fine-spline-10
              cassette: dun-12-10-51
              chain: dun-chain-12-assisted
              bottomBracket: dun-motor-mount
              crank: dun-motor-trail
              rings: dun-motor-34
              rearDerailleur: dun-assisted-12
              rearShifter: dun-shift-12
            """,
        ["city"] = """
            name: City
            parts:
              frame: marl-city
              rearWheel: skel-135-nut-spline-35
              cassette: pell-8-11-32
              chain: ox-chain-8
              bottomBracket: quill-bb-68-square
              crank: quill-city-1
              rings: quill-104-42
              rearDerailleur: varn-8-long
              rearShifter: varn-shift-8
            """,
        ["single"] = """
            name: Single-speed
            parts:
              frame: marl-single
              rearWheel: skel-single
              cassette: pell-1-16
              chain: ox-chain-1
              bottomBracket: quill-bb-68-square
              crank: quill-single
              rings: quill-1-44
            """,
    };

    public static TheoryData<string> BikeNames => [.. Bikes.Keys];

    public static TheoryData<string> Derailleurs =>
        [.. DemoParts.Library.Of(PartKind.RearDerailleur).Select(part => part.Id)];

    public static TheoryData<string> DemoFiles =>
        [
            .. Directory
                .EnumerateFiles(Repository.PathOf("demo/parts"), "*.yaml")
                .Select(f => Path.GetFileName(f)!)
                .Order(StringComparer.Ordinal),
        ];

    private static SpecFile Read(string bike)
    {
        var reading = SpecReader.Read(Bikes[bike], bike, DemoParts.Library);
        Assert.Empty(reading.Problems);
        return reading.Spec!;
    }

    [Fact]
    public void DemoLibrary_HasManyPartsOfEveryKind()
    {
        Assert.True(DemoParts.Library.Count >= 150);
        Assert.All(PartKinds.All, kind => Assert.True(DemoParts.Library.Of(kind).Length >= 5));
        Assert.Equal(
            DemoFiles.Sum(f =>
                PartsReader.Read(Repository.Text("demo/parts/" + f.Data), f.Data).Parts.Length
            ),
            DemoParts.Library.Count
        );
    }

    /// <summary>Where an adapter joins: the kinds on the bike's side, and the kind that is fitted.</summary>
    private static readonly Dictionary<string, (PartKind[] Bike, PartKind Fitted)> Joins = new()
    {
        ["hubDriver"] = ([PartKind.RearWheel], PartKind.Cassette),
        ["spindle"] = ([PartKind.BottomBracket], PartKind.Crank),
        ["shell"] = ([PartKind.Frame], PartKind.BottomBracket),
        ["frontMount"] = ([PartKind.Frame], PartKind.FrontDerailleur),
        ["ringMount"] = ([PartKind.Crank], PartKind.Rings),
        ["derailleurMount"] = ([PartKind.Frame, PartKind.Hanger], PartKind.RearDerailleur),
        ["hangerFit"] = ([PartKind.Frame], PartKind.Hanger),
        ["cageFit"] = ([PartKind.RearDerailleur], PartKind.Cage),
    };

    [Fact]
    public void DemoAdapters_LeadFromOnePartToAnother() =>
        Assert.All(
            DemoParts.Library.Of(PartKind.Adapter),
            adapter =>
            {
                var (bike, fitted) = Joins[adapter.Tag(PartFields.Joins)!];
                var field = PartFields.Find(adapter.Tag(PartFields.Joins)!)!;
                Assert.Contains(
                    bike.SelectMany(kind => DemoParts.Library.Of(kind)),
                    part => part.Tag(field) == adapter.Tag(PartFields.From)
                );
                Assert.Contains(
                    DemoParts.Library.Of(fitted),
                    part => part.Tag(field) == adapter.Tag(PartFields.To)
                );
            }
        );

    public static TheoryData<string, PartKind> Fitted =>
        [
            .. Joins.SelectMany(join =>
                DemoParts.Library.Of(join.Value.Fitted).Select(part => (part.Id, part.Kind))
            ),
        ];

    [Theory]
    [MemberData(nameof(Fitted))]
    public void DemoPart_ThatIsFittedToAnother_FindsOne(string id, PartKind kind) =>
        Assert.All(
            Joins.Where(join => join.Value.Fitted == kind),
            join =>
            {
                var field = PartFields.Find(join.Key)!;
                var tag = DemoParts.Library.Find(id)!.Tag(field);
                var onBikes = join
                    .Value.Bike.SelectMany(each => DemoParts.Library.Of(each))
                    .Select(part => part.Tag(field));
                var byAdapter = DemoParts
                    .Library.Of(PartKind.Adapter)
                    .Where(adapter => adapter.Tag(PartFields.Joins) == join.Key)
                    .Select(adapter => adapter.Tag(PartFields.To));
                Assert.True(tag is null || onBikes.Concat(byAdapter).Contains(tag), join.Key);
            }
        );

    public static TheoryData<string> RingSets =>
        [.. DemoParts.Library.Of(PartKind.Rings).Select(part => part.Id)];

    /// <summary>
    /// A ring stands outside its bolts: between the roots of its teeth (ISO 606: pitch circle less the roller) and the bolt
    /// circle there is half of a bolt's hole of 10 mm, and metal of 1.5 mm at least (from memory).
    /// </summary>
    [Theory]
    [MemberData(nameof(RingSets))]
    public void DemoRings_OnTheirBoltCircle_HaveRoomForTheBolts(string id)
    {
        var rings = DemoParts.Library.Find(id)!;
        var names = rings.Tag(PartFields.RingMount)!.Split('-');
        var circles = names
            .Where(_ => names[0] == "bc")
            .Skip(1)
            .Select(text => int.Parse(text, CultureInfo.InvariantCulture))
            .Where(diameterMm => diameterMm > 20)
            .ToList();
        var teeth = rings.Numbers(PartFields.Teeth);
        foreach (var count in circles.Count == 0 ? [] : teeth)
        {
            // The innermost ring of a triple has a circle of its own.
            var circleMm = circles.Count > 1 && count == teeth.Min() ? circles[1] : circles[0];
            var rootMm = (12.7 / Math.Sin(Math.PI / count)) - 7.75;
            Assert.True(rootMm - circleMm > 2 * (5 + 1.5), $"{count} teeth on {circleMm} mm");
        }
    }

    [Theory]
    [MemberData(nameof(DemoFiles))]
    public void DemoFile_AgainstSchema_IsValid(string name) =>
        Assert.True(SchemaTests.IsValid(Schema, Repository.Text("demo/parts/" + name)));

    [Theory]
    [MemberData(nameof(BikeNames))]
    public void BikeOfParts_Solved_ServesEveryGear(string bike)
    {
        var spec = Read(bike).Drivetrain;

        var choice = ChainChooser.Choose(spec);

        Assert.Equal(ChainChoiceStatus.ServesAll, choice.Status);
        // As sold: the longest box holds 138 pitches.
        Assert.InRange(choice.Numbers.Recommended!.Value, 90, 138);
        if (spec.RearDerailleur is null)
        {
            return;
        }
        var largest = new Gear(spec.Rings.Min(r => r.Teeth), spec.Cogs.Teeth[^1]);
        var gear = choice.Table!.Find(largest)!.Value;
        Assert.Equal(GearState.Ok, gear.State);
        // Common practice: 4 to 8 mm on moderate cassettes, up to about 11 mm on the widest; small cassettes leave more.
        Assert.InRange(gear.GapMm, 3, 16);
    }

    [Theory]
    [MemberData(nameof(BikeNames))]
    public void BikeOfParts_ByEveryRule_BelongsTogether(string bike)
    {
        var spec = Read(bike);

        Assert.DoesNotContain(
            FittedSpec.Of(spec, DemoParts.Library, spec.Drivetrain).Side.Compatibility.Answers,
            answer => answer.Answer == Compatibility.No
        );
    }

    [Theory]
    [MemberData(nameof(BikeNames))]
    public void BikeOfParts_Written_StaysOfItsParts(string bike)
    {
        var spec = Read(bike);

        var back = SpecReader.Read(SpecWriter.Write(spec), bike, DemoParts.Library).Spec!;

        Assert.Equal(spec.FromParts, back.FromParts);
        Assert.Equal(spec.Drivetrain.Assumptions, back.Drivetrain.Assumptions);
    }

    [Theory]
    [InlineData("road-motor", Actuation.MotorWireless, false)]
    [InlineData("assisted", Actuation.Cable, true)]
    [InlineData("single", Actuation.None, false)]
    public void BikeOfParts_KnowsHowItIsDriven(string bike, Actuation actuation, bool isAssisted)
    {
        var work = Read(bike).Work;

        Assert.Equal(actuation, work.Actuation);
        Assert.Equal(isAssisted, work.Assisted);
    }

    /// <summary>Cable per click times shift ratio is the step from cog to cog (common practice, to a tenth of a millimetre).</summary>
    [Theory]
    [InlineData("road-cable")]
    [InlineData("gravel")]
    [InlineData("trail-sprung")]
    [InlineData("touring")]
    [InlineData("assisted")]
    [InlineData("city")]
    public void CableBikeOfParts_PullTimesRatio_IsTheCogSpacing(string bike)
    {
        var spec = Read(bike).Drivetrain;

        Assert.Equal(spec.Cogs.Teeth.Length - 1, spec.Shifting!.PullMm.Length);
        Assert.Equal(
            spec.Cogs.SpacingMm,
            spec.Shifting.PullMm.Average() * spec.Shifting.ShiftRatio!.Value,
            0.1
        );
    }

    [Theory]
    [MemberData(nameof(Derailleurs))]
    public void EveryDerailleur_OnABikeWithTheCogsItIsMadeFor_CanBeSolved(string id)
    {
        var part = DemoParts.Library.Find(id)!;
        var largest = (int)part.Number(PartFields.LargestCog)!.Value;
        var reading = SpecReader.Read(
            $$"""
            name: Trial
            parts: {rearDerailleur: {{id}}}
            frame: {class: gravel}
            hanger: {class: mountain}
            rings: [40]
            cogs: {teeth: 11-13-15-17-19-21-{{largest - 6}}-{{largest}}}
            """,
            "trial.yaml",
            DemoParts.Library
        );

        Assert.Empty(reading.Problems);
        Assert.NotEqual(
            ChainChoiceStatus.NoGear,
            ChainChooser.Choose(reading.Spec!.Drivetrain).Status
        );
    }
}
