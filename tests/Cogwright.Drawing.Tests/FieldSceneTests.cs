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
}
