using Cogwright.Drivetrain;

namespace Cogwright.Drawing.Tests;

/// <summary>The small drawings beside the fields of a spec.</summary>
public sealed class FieldSceneTests
{
    public static TheoryData<string> Paths => [.. FieldScene.Paths];

    [Theory]
    [MemberData(nameof(Paths))]
    public void Of_EveryFieldThatHasOne_MarksSomethingInsideThePicture(string path)
    {
        var scene = FieldScene.Of(WorkedExample.Spec, path, "a field", 60, 55)!;
        Assert.Equal("a field", scene.Title);
        var marked = scene.Shapes.Where(shape =>
            shape is Line { Stroke: Stroke.Warning } or Arc { Stroke: Stroke.Warning }
        );
        Assert.NotEmpty(marked);
        foreach (var line in scene.Shapes.OfType<Line>().Where(l => l.Stroke == Stroke.Warning))
        {
            Assert.InRange(line.X1, scene.Left, scene.Right);
            Assert.InRange(line.Y1, scene.Bottom, scene.Top);
        }
        Assert.NotEmpty(SvgWriter.Write(scene));
    }

    [Fact]
    public void Of_AFieldWithoutDrawing_IsNull() =>
        Assert.Null(FieldScene.Of(WorkedExample.Spec, "name", "a field", 60, 55));

    [Theory]
    [MemberData(nameof(Paths))]
    public void Of_ABikeWithoutDerailleur_DrawsOrLeavesOutButNeverFails(string path)
    {
        var scene = FieldScene.Of(WorkedExample.SingleSpeed, path, "a field", 60, 55);
        Assert.True(scene is null || SvgWriter.Write(scene).Length > 0);
    }

    [Fact]
    public void Of_TheOffsetOfTheHanger_MarksForwardAndUp()
    {
        var lengths = Lengths("hanger.offset");
        var offset = WorkedExample.Spec.Hanger!.OffsetMm;
        Assert.Equal([Math.Abs(offset.X), Math.Abs(offset.Y)], lengths, Close);
    }

    [Theory]
    [InlineData("rearDerailleur.cage.guide.offset")]
    [InlineData("rearDerailleur.cage.tension.offset")]
    [InlineData("rearDerailleur.upperPivot")]
    public void Of_AnOffsetOfATurnedPart_MarksItsTwoLengths(string path)
    {
        var derailleur = WorkedExample.Spec.RearDerailleur!;
        var offset =
            path.Contains("guide", StringComparison.Ordinal) ? derailleur.Cage.Guide.OffsetMm
            : path.Contains("tension", StringComparison.Ordinal) ? derailleur.Cage.Tension.OffsetMm
            : derailleur.UpperPivotMm;
        Assert.Equal([Math.Abs(offset.X), Math.Abs(offset.Y)], Lengths(path), Close);
    }

    [Fact]
    public void Of_TheLateralOfARing_MarksThatRing()
    {
        var rings = WorkedExample.Spec.Rings;
        for (var i = 0; i < rings.Length; i++)
        {
            Assert.Equal([Math.Abs(rings[i].LateralMm)], Lengths("rings[].lateral", i), Close);
        }
        Assert.Null(
            FieldScene.Of(WorkedExample.Spec, "rings[].lateral", "a", 60, 55, rings.Length)
        );
    }

    [Fact]
    public void Of_TheWidthOfTheStack_IsMarkedFromFaceToFace()
    {
        var cogs = WorkedExample.Spec.Cogs;
        Assert.Equal(
            [
                ((cogs.Teeth.Length - 1) * cogs.SpacingMm)
                    + ChainSides.CogThicknessMm(WorkedExample.Spec),
            ],
            Lengths("cogs.stackWidth"),
            Close
        );
    }

    private static bool Close(double a, double b) => Math.Abs(a - b) < 1e-9;

    private static double[] Lengths(string path, int entry = 0) =>
        [
            .. FieldScene
                .Of(WorkedExample.Spec, path, "a field", 60, 55, entry)!
                .Shapes.OfType<Line>()
                .Where(line => line.Stroke == Stroke.Warning)
                .Select(line =>
                    Math.Sqrt(
                        ((line.X2 - line.X1) * (line.X2 - line.X1))
                            + ((line.Y2 - line.Y1) * (line.Y2 - line.Y1))
                    )
                ),
        ];
}
