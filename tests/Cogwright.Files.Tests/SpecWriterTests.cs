using Cogwright.Drivetrain;
using Cogwright.Fastening;
using Cogwright.Setup;
using CsCheck;

namespace Cogwright.Files.Tests;

/// <summary>What is written reads back as the same spec, and nothing assumed becomes measured.</summary>
public sealed class SpecWriterTests
{
    public static TheoryData<string> Specs => [.. Repository.DemoSpecs];

    private static void AssertReadsBack(SpecFile spec)
    {
        var text = SpecWriter.Write(spec);
        var back = SpecReader.Read(text, "written.yaml", DemoParts.Library);
        Assert.True(back.Spec is not null, string.Join('\n', back.Problems) + "\n" + text);
        Assert.Equal(
            [],
            SpecLeaves.Differences(SpecLeaves.Of(spec), SpecLeaves.Of(back.Spec)).ToList()
        );
        Assert.Equal(spec.Drivetrain.Assumptions, back.Spec.Drivetrain.Assumptions);
    }

    [Theory]
    [MemberData(nameof(Specs))]
    public void DemoSpec_WrittenAndRead_IsTheSameWithTheSameAssumptions(string name) =>
        AssertReadsBack(DemoSpecTests.Read(name));

    [Fact]
    public void AssumedValue_Written_IsACommentAndNotAValue()
    {
        var text = SpecWriter.Write(DemoSpecTests.Read("road-2x12-wireless.yaml"));

        Assert.Contains("class: road-medium", text, StringComparison.Ordinal);
        Assert.Contains(
            "# rearDerailleur.slant: 52 °, assumed from road-medium derailleur",
            text,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("\n  slant:", text, StringComparison.Ordinal);
    }

    [Fact]
    public void ChangedAssumedValue_Written_IsNotLost()
    {
        var spec = DemoSpecTests.Read("road-2x12-wireless.yaml");
        var derailleur = spec.Drivetrain.RearDerailleur!;
        var changed = spec with
        {
            Drivetrain = spec.Drivetrain with
            {
                RearDerailleur = derailleur with { SlantRad = 0.9 },
            },
        };

        var back = SpecReader
            .Read(SpecWriter.Write(changed), "written.yaml", DemoParts.Library)
            .Spec!;

        Assert.Equal(0.9, back.Drivetrain.RearDerailleur!.SlantRad);
    }

    private static readonly Gen<SpecFile> Measured =
        from stay in Gen.Double[380, 480]
        from drop in Gen.Double[-20, 90]
        from body in Gen.Double[-0.5, 0.8]
        from kappa in Gen.Double[-1.2, -0.3]
        from slant in Gen.Double[0.3, 1.2]
        from x in Gen.Double[-40, -5]
        from y in Gen.Double[-40, -5]
        from rate in Gen.Double[0.1, 1]
        from name in Gen.Char["ab #:-'\"\\{}[]&*!|>%@`äß中"].Array[1, 30].Select(c => new string(c))
        from teeth in Gen.Int[9, 60].HashSet[3, 13]
        from ring in Gen.Int[24, 56]
        from tip in Gen.Bool
        from narrows in Gen.Bool
        where !string.IsNullOrWhiteSpace(name)
        select new SpecFile(
            new DrivetrainSpec
            {
                Name = name,
                Frame = new() { ChainstayMm = stay, BottomBracketDropMm = drop },
                Hanger = new(new(x / 4, y))
                {
                    Material = tip ? HangerMaterial.Steel : HangerMaterial.Unknown,
                    Bends = 2,
                    GaugeRadiusMm = 300 + rate,
                },
                Rings = [new(ring, 44.5, tip ? 2 * Sprocket.TipRadiusMm(ring) : null)],
                Cogs = new()
                {
                    Teeth = [.. teeth.Order()],
                    SmallestLateralMm = 63.1,
                    SpacingMm = 3.7,
                    TipDiametersMm = tip ? [2 * Sprocket.TipRadiusMm(teeth.Min()), null] : [],
                },
                Chain = new()
                {
                    Pitches = 111,
                    HalfLink = true,
                    Elongation = 0.0031,
                },
                RearDerailleur = new()
                {
                    BodyAngleRad = body,
                    UpperPivotMm = new(x, y),
                    LinkLengthMm = 57.8,
                    LinkAngleRad = kappa,
                    SlantRad = slant,
                    GuideLateralAtZeroMm = 44.5,
                    OutboardStopRad = -slant / 2,
                    LeastGapMm = 2.5,
                    Cage = new()
                    {
                        Guide = new(new(x / 3, 1), 12) { FloatMm = tip ? 0.9 : null },
                        Tension = new(new(-4, -74 + (y / 10)), 12),
                        RearStopRad = -1.7 + (body / 10),
                        FrontStopRad = 1.1,
                        Spring = new(0.5, rate),
                    },
                    BodyAngleScrew = new()
                    {
                        Name = name,
                        Moves = Moves.BodyAngle,
                        ClockwiseWidensGap = !narrows,
                        TurnsLeftIn = 2.25,
                    },
                },
                GearsNotUsed = [new(ring, teeth.Max())],
                Shifting = tip
                    ? new() { PullMm = [rate + 2, 3.1], ShiftRatio = 1 + rate }
                    : new()
                    {
                        PositionsMm = [63.1, 59.4 + rate],
                        OffsetStepMm = 0.25,
                        StepsLeftInboard = 12,
                    },
                Adjusters =
                [
                    new()
                    {
                        Name = name,
                        Moves = Moves.CableLength,
                        ThreadPitchMm = 0.8,
                        ClicksPerTurn = 6,
                    },
                    new()
                    {
                        Name = "inner",
                        Moves = Moves.RearInboardStop,
                        MmPerTurn = rate,
                        ClockwiseOutboard = !narrows,
                    },
                ],
            },
            new WorkSpec
            {
                Actuation = Actuation.MotorWired,
                Assisted = tip,
                Torques =
                [
                    new(Fasteners.Lockring, 40, 40),
                    new(Fasteners.RearMount, 8.1, 9.9, name),
                ],
                Gap = new(ring, teeth.Max(), 6.5, 1.5),
            }
        );

    [Fact]
    public void MeasuredSpec_WrittenAndRead_IsExactlyTheSame() =>
        Measured.Sample(AssertReadsBack, iter: 300);
}
