namespace Cogwright.Paper.Tests;

public sealed class WorksheetTests
{
    [Fact]
    public void Dump_All_ForEyes()
    {
        var dir = Environment.GetEnvironmentVariable("SHEETS");
        if (dir is null)
        {
            return;
        }
        foreach (
            var (name, content) in new[]
            {
                ("one", WorksheetFixtures.OneRing()),
                ("two", WorksheetFixtures.TwoRings()),
                ("three", WorksheetFixtures.ThreeRings()),
                ("single", WorksheetFixtures.SingleSpeed()),
                ("long", WorksheetFixtures.LongNames()),
            }
        )
        {
            foreach (var size in Enum.GetValues<PaperSize>())
            {
                File.WriteAllBytes(
                    Path.Combine(dir, $"{name}-{size}.pdf"),
                    Worksheet.Write(content, [], size)
                );
            }
        }
    }
}
