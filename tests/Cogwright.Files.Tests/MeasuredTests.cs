using Cogwright.Drivetrain.Bench;

namespace Cogwright.Files.Tests;

/// <summary>Measurements in a spec: read, written, and their mistakes told at their place.</summary>
public sealed class MeasuredTests
{
    private const string Bike = """
        name: Measured
        frame: {class: road-race}
        hanger: {class: road}
        rings: [50, 34]
        cogs: {teeth: 11-12-13-14-15-17-19-21-24-27-30-34}
        rearDerailleur: {class: road-medium}

        """;

    private static SpecReading Read(string measured) =>
        SpecReader.Read(Bike + measured, "measured.yaml");

    [Fact]
    public void Measured_ValuesWithAndWithoutUncertainty_AreRead()
    {
        var reading = Read(
            """
            measured:
              uncertainty: 0.4
              axleToBottomBracket: 410.5
              acrossLinkPins: {value: 2.25 in, uncertainty: 0.1 mm}
              positions:
                - {cog: 11, pivotToAxle: 70}
                - cog: 34
                  pivotToHangerBolt: 78.5
              afterScrew: {cog: 34, pivotToAxle: 105}
              gaps:
                - {ring: 34, cog: 30, gap: 9.5}
            """
        );
        Assert.Empty(reading.Problems);
        Assert.Equal(
            [
                new(new(BenchDistance.AxleToBottomBracket), 410.5, 0.4),
                new(new(BenchDistance.AcrossLinkPins), 2.25 * 25.4, 0.1),
                new(new(BenchDistance.PivotToAxle, 11), 70, 0.4),
                new(new(BenchDistance.PivotToHangerBolt, 34), 78.5, 0.4),
                new(new(BenchDistance.PivotToAxleAfterScrew, 34, 0, 2), 105, 0.4),
                new(new(BenchDistance.Gap, 30, 34), 9.5, 0.4),
            ],
            reading.Spec!.Drivetrain.Measured!.Readings
        );
    }

    [Fact]
    public void Measured_NoUncertaintyAnywhere_IsACaliperHeldByHand() =>
        Assert.Equal(
            0.5,
            Assert
                .Single(
                    Read("measured: {axleToHangerBolt: 29}").Spec!.Drivetrain.Measured!.Readings
                )
                .UncertaintyMm
        );

    [Fact]
    public void Measured_WrittenAndRead_IsTheSame()
    {
        var spec = DemoSpecTests.Read("measured-2x12.yaml");

        var text = SpecWriter.Write(spec);

        Assert.Equal(
            spec.Drivetrain.Measured!.Readings,
            SpecReader.Read(text, "").Spec!.Drivetrain.Measured!.Readings
        );
        Assert.Contains("\n  axleToBottomBracket: 412.5\n", text, StringComparison.Ordinal);
        // The classes stay classes: what is fitted is never written as if it had been stated.
        Assert.Contains("class: road-medium", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Measured_SamePlaceTwice_IsWrittenAsItsMean()
    {
        var spec = DemoSpecTests.Read("measured-2x12.yaml");
        var place = new BenchPlace(BenchDistance.AcrossLinkPins);
        var twice = spec with
        {
            Drivetrain = spec.Drivetrain with
            {
                Measured = new([new(place, 58, 0.5), new(place, 59, 0.5)]),
            },
        };

        var back = SpecReader.Read(SpecWriter.Write(twice), "").Spec!;

        var mean = Assert.Single(back.Drivetrain.Measured!.Readings);
        Assert.Equal(58.5, mean.ValueMm);
        Assert.Equal(0.5 / Math.Sqrt(2), mean.UncertaintyMm, 1e-12);
    }

    [Fact]
    public void Measured_UnknownCog_IsToldAtThePositions()
    {
        var problem = Assert.Single(
            Read(
                """
                measured:
                  positions:
                    - {cog: 18, pivotToAxle: 90}
                """
            ).Problems
        );
        Assert.Equal(8, problem.Line);
        Assert.Contains("18", problem.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("measured: {axleToHangerBolt: 0}")]
    [InlineData("measured: {axleToHangerBolt: -3}")]
    [InlineData("measured: {axleToHangerBolt: {value: 29, uncertainty: 0}}")]
    [InlineData("measured: {axleToHangerBolt: {uncertainty: 0.5}}")]
    [InlineData("measured: {positions: [{pivotToAxle: 70}]}")]
    [InlineData("measured: {gaps: [{ring: 99, cog: 34, gap: 6}]}")]
    [InlineData("measured: {afterScrew: {cog: 34, turns: 0, pivotToAxle: 105}}")]
    [InlineData("measured: 5")]
    public void Measured_WhatCannotBe_IsTold(string measured)
    {
        var reading = Read(measured);
        Assert.Null(reading.Spec);
        Assert.NotEmpty(reading.Problems);
    }
}
