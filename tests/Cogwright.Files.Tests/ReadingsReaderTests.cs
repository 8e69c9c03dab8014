namespace Cogwright.Files.Tests;

public sealed class ReadingsReaderTests
{
    internal const string Example = """
        gauges:
          - name: caliper
            resolution: 0.01
            uncertainty: 0.1
          - name: torque wrench
            expanded: 0.8 N·m
            k: 2
        readings:
          - quantity: gap
            ring: 34
            cog: 34
            value: 0.36 in
            gauge: caliper
            convention: teeth to teeth
          - quantity: chain-pitches
            value: 110
            uncertainty: 0
        """;

    private static FileProblem OnlyProblem(string text) =>
        Assert.Single(ReadingsReader.Read(text, "readings.yaml").Problems);

    [Fact]
    public void Readings_Read_HoldValuesUnitsAndPlaces()
    {
        var reading = ReadingsReader.Read(Example, "readings.yaml");

        Assert.Empty(reading.Problems);
        Assert.Equal(
            [
                new GaugeEntry("caliper", 0.01, 0.1, "", 2, 5),
                new GaugeEntry("torque wrench", null, 0.4, "N·m", 5, 5),
            ],
            reading.File!.Gauges
        );
        Assert.Equal(2, reading.File.Readings.Length);
        var gap = reading.File.Readings[0];
        Assert.Equal(("gap", 34, 34), (gap.Quantity, gap.RingTeeth, gap.CogTeeth));
        Assert.Equal(9.144, gap.Value, 12);
        Assert.Equal(("mm", "caliper", "teeth to teeth"), (gap.Unit, gap.Gauge, gap.Convention));
        Assert.Equal((9, 5), (gap.Line, gap.Column));
        Assert.Equal(
            new ReadingEntry("chain-pitches", null, null, 110, "", 0, null, "", null, 15, 5)
            {
                QuantityPlace = (15, 15),
                ValuePlace = (16, 12),
            },
            reading.File.Readings[1]
        );
    }

    [Theory]
    [InlineData("gauge: calliper", "did you mean \"caliper\"", 10, 12)]
    [InlineData("ring: 34", "both, or neither", 8, 5)]
    [InlineData("uncertainty: -0.1", "never negative", 10, 18)]
    [InlineData("k: 2", "belongs to an expanded", 10, 8)]
    [InlineData("uncertainty: 0.1 N·m", "in mm and in N·m", 8, 5)]
    [InlineData("gauges: caliper", "did you mean \"gauge\"", 10, 5)]
    public void BadReading_Read_TellsPlace(string line, string message, int atLine, int atColumn)
    {
        var text = $"""
            gauges:
              - name: caliper
                resolution: 0.01
                uncertainty: 0.1


            readings:
              - quantity: gap
                value: 9.2 mm
                {line}
            """;

        var problem = ReadingsReader.Read(text, "readings.yaml").Problems.First(p => p.IsError);

        Assert.Contains(message, problem.Message, StringComparison.Ordinal);
        Assert.Equal((atLine, atColumn), (problem.Line, problem.Column));
    }

    [Fact]
    public void ReadingWithoutGauge_Read_IsRemarkedAndKept()
    {
        var reading = ReadingsReader.Read(
            "readings:\n  - {quantity: gap, value: 9.2}\n",
            "readings.yaml"
        );

        Assert.False(Assert.Single(reading.Problems).IsError);
        Assert.NotNull(reading.File);
    }

    [Fact]
    public void GaugeTwice_Read_IsAnError() =>
        Assert.Contains(
            "twice",
            OnlyProblem("gauges: [{name: a}, {name: a}]\nreadings: []\n").Message,
            StringComparison.Ordinal
        );
}
