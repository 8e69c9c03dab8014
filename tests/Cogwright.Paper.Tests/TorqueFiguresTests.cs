using System.Text.RegularExpressions;
using Cogwright.Setup;

namespace Cogwright.Paper.Tests;

/// <summary>A torque on the worksheet is never more than the upper limit nor less than the lower, and never upside down.</summary>
public partial class TorqueFiguresTests
{
    // Source: NIST SP 811 (2008), appendix B: 1 lbf·in = 0.1129848 N·m.
    private const double PoundForceInchNm = 0.1129848;

    [Theory]
    [InlineData(45 * PoundForceInchNm, 45 * PoundForceInchNm, "5.08 N·m")]
    [InlineData(5.42, 5.42, "5.42 N·m")]
    [InlineData(5.42, 5.47, "5.42–5.47 N·m")]
    [InlineData(5.5, 5.5, "5.5 N·m")]
    [InlineData(5.42, 5.57, "5.5 N·m")]
    [InlineData(40 * PoundForceInchNm, 50 * PoundForceInchNm, "4.6–5.6 N·m")]
    [InlineData(5, 7, "5–7 N·m")]
    public void Worksheet_Torque_IsPrintedInsideItsLimits(
        double lower,
        double upper,
        string figures
    )
    {
        Assert.All(Printed(lower, upper), printed => Assert.Equal(figures, printed));
    }

    private static string[] Printed(double lower, double upper)
    {
        var content = WorksheetFixtures.OneRing();
        Target Bounded(Target target) =>
            target.IsTorque ? target with { Lower = lower, Upper = upper } : target;
        content = content with
        {
            Stages =
            [
                .. content.Stages.Select(stage =>
                    stage with
                    {
                        Targets = [.. stage.Targets.Select(Bounded)],
                    }
                ),
            ],
        };
        // A figure may stand on one line and its unit on the next.
        var text = string.Join(
            ' ',
            Worksheet.Set(content, [], PaperSize.A4).Layout.Printed.Select(text => text.Text)
        );
        string[] printed = [.. Figures().Matches(text).Select(match => match.Value)];
        Assert.NotEmpty(printed);
        return printed;
    }

    [GeneratedRegex(@"[\d.]+(–[\d.]+)? N·m")]
    private static partial Regex Figures();
}
