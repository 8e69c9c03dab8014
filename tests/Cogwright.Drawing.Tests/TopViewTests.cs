using Cogwright.Drivetrain;

namespace Cogwright.Drawing.Tests;

/// <summary>The geometry of the top view: forward is x, and a lateral position z stands at y = −z.</summary>
public class TopViewTests
{
    private const double ExactMm = 1e-9;

    internal static GearTable Table { get; } =
        GearTableSolver.Solve(
            WorkedExample.Spec with
            {
                RearDerailleur = WorkedExample.Spec.RearDerailleur! with
                {
                    InboardStopRad = WorkedExample.Rad(36),
                },
                Lateral = new()
                {
                    Spokes = new()
                    {
                        FlangeLateralMm = 17,
                        FlangeRadiusMm = 22,
                        RimLateralMm = 0,
                        RimRadiusMm = 300,
                    },
                    CageInnerFaceMm = 4.5,
                    ChainWidthMm = 5.3,
                    DropoutFaceMm = 68,
                },
            },
            110
        );

    private static double Length(Dimension d) =>
        Math.Sqrt(((d.X2 - d.X1) * (d.X2 - d.X1)) + ((d.Y2 - d.Y1) * (d.Y2 - d.Y1)));

    private static Dimension Dim(Scene scene, string begins) =>
        Assert.Single(
            scene.Shapes.OfType<Dimension>(),
            d => d.Text.StartsWith(begins, StringComparison.Ordinal)
        );

    public static TheoryData<int, int> Gears =>
        [.. Table.Gears.Select(g => (g.Gear.RingTeeth, g.Gear.CogTeeth))];

    [Theory]
    [MemberData(nameof(Gears))]
    public void LateralDimensions_EveryGear_AreThePositionsToScale(int ring, int cog)
    {
        var scene = TopView.Draw(Table, new(ring, cog));
        var result = Table.Find(new(ring, cog))!.Value;
        Assert.Equal(
            Table.Spec.Cogs.LateralMm(result.CogIndex),
            Length(Dim(scene, "cog")),
            ExactMm
        );
        Assert.Equal(
            Table.Spec.Rings[result.RingIndex].LateralMm,
            Length(Dim(scene, "ring")),
            ExactMm
        );
    }

    [Theory]
    [MemberData(nameof(Gears))]
    public void Chain_EveryGear_IsAsWideAsItIsAndAsLongAsItsTopRun(int ring, int cog)
    {
        var scene = TopView.Draw(Table, new(ring, cog));
        var result = Table.Find(new(ring, cog))!.Value;
        var chain = Assert.Single(scene.Shapes.OfType<Polyline>(), p => p.Stroke == Stroke.Chain);
        Assert.Equal(8, chain.Points.Length);
        Assert.Equal(5.3, chain.Points[7].Y - chain.Points[0].Y, ExactMm);
        // In plan the run's own slope in side view shortens it; its sideways part is exact.
        var (start, end) = (chain.Points[1], chain.Points[2]);
        Assert.Equal(
            Table.Spec.Cogs.LateralMm(result.CogIndex)
                - Table.Spec.Rings[result.RingIndex].LateralMm,
            end.Y - start.Y,
            ExactMm
        );
        Assert.InRange(end.X - start.X, result.TopRunMm * 0.9, result.TopRunMm);
    }

    [Fact]
    public void Room_LargestCog_IsDimensionedAsLongAsItIs()
    {
        var scene = TopView.Draw(Table, new(34, 34));
        var cage = SpokeClearance.Of(Table).All[0];
        var text = cage.Mm!.Value.ToString(
            "0.0",
            System.Globalization.CultureInfo.InvariantCulture
        );
        var dimension = Dim(scene, text);
        Assert.Equal(cage.Mm!.Value, Length(dimension), ExactMm);
        // It stands where the cage comes nearest, from the cage's face inward to the spokes.
        Assert.Equal(cage.At!.Value.X, dimension.X1, ExactMm);
        Assert.Equal(-cage.FaceLateralMm!.Value, dimension.Y2, ExactMm);
        Assert.True(dimension.Y1 > dimension.Y2);
    }

    [Theory]
    [InlineData(0.4, 0)]
    [InlineData(0.4, -0.8)]
    [InlineData(-0.4, 0.8)]
    public void Room_LargestCogWithATiltedHanger_IsThatOfTheTiltedOne(double leanDeg, double toeDeg)
    {
        var tilt = new HangerTilt(WorkedExample.Rad(leanDeg), WorkedExample.Rad(toeDeg));
        var scene = TopView.Draw(Table, new(34, 34), new() { Tilt = tilt });
        var cage = SpokeClearance.Of(Table, tilt).Find(ClearanceKind.CageTilted)!;
        var room = cage.Mm!.Value;
        var text = Math.Abs(room)
            .ToString("0.0", System.Globalization.CultureInfo.InvariantCulture);
        var dimension = Assert.Single(
            scene.Shapes.OfType<Dimension>(),
            d => Math.Abs(Length(d) - Math.Abs(room)) < ExactMm
        );
        Assert.Contains(text, dimension.Text, StringComparison.Ordinal);
        Assert.Equal(cage.At!.Value.X, dimension.X1, ExactMm);
        var face = room > 0 ? dimension.Y2 : dimension.Y1;
        Assert.Equal(-cage.FaceLateralMm!.Value, face, ExactMm);
    }

    [Fact]
    public void Room_SmallestCog_IsDimensionedToTheFrame()
    {
        var scene = TopView.Draw(Table, new(50, 11));
        var dimension = Dim(scene, "1.1 mm");
        Assert.Equal(68 - 64.3 - 2.65, Length(dimension), ExactMm);
        Assert.Equal(-68, dimension.Y2, ExactMm);
    }

    [Fact]
    public void Rub_SmallestCogOnSmallRing_IsWarnedOfInWordsAndDimensioned()
    {
        var scene = TopView.Draw(Table, new(34, 11));
        var rub = RingRub.Of(Table.Spec, Table.Find(new(34, 11))!.Value)!.Value;
        Assert.True(rub.ClearanceMm < 0);
        Assert.Equal(-rub.ClearanceMm, Length(Dim(scene, "overlap")), ExactMm);
        Assert.Contains(
            scene.Shapes.OfType<Label>(),
            l =>
                l.Stroke == Stroke.Warning
                && l.Text.Contains("into ring 50", StringComparison.Ordinal)
        );
    }

    /// <summary>A figure on a part cannot be read: no edge of a part runs through it.</summary>
    [Theory]
    [InlineData(34, 11)]
    [InlineData(34, 34)]
    [InlineData(50, 11)]
    public void Room_AnyGear_HasItsFigureClearOfTheParts(int ring, int cog)
    {
        var scene = TopView.Draw(Table, new(ring, cog));
        var texts = scene
            .Shapes.OfType<Dimension>()
            .SelectMany(d => DimensionLayout.Shapes(d).OfType<Label>())
            .ToList();
        Assert.True(texts.Count >= 3);
        foreach (var part in scene.Shapes.OfType<Polyline>())
        {
            foreach (var (from, to) in part.Points.Zip(part.Points.Skip(1).Append(part.Points[0])))
            {
                for (var i = 0; i <= 200; i++)
                {
                    var (x, y) = (
                        from.X + ((to.X - from.X) * i / 200),
                        from.Y + ((to.Y - from.Y) * i / 200)
                    );
                    Assert.All(texts, text => Assert.False(Extent.Of(text).Holds(x, y), text.Text));
                }
            }
        }
    }

    [Fact]
    public void Spokes_CutAtTheCage_AreNamed()
    {
        Assert.Contains(
            TopView.Draw(Table, new(34, 34)).Shapes.OfType<Label>(),
            label => label.Text == "spokes at cage"
        );
        Assert.DoesNotContain(
            TopView.Draw(Table, new(34, 11)).Shapes.OfType<Label>(),
            label => label.Text == "spokes at cage"
        );
    }

    [Fact]
    public void Head_SpokesFirst_ComesBeforeEverythingElse()
    {
        var labels = TopView
            .Draw(Table, new(34, 34))
            .Shapes.OfType<Label>()
            .OrderByDescending(l => l.Y)
            .Select(l => l.Text)
            .ToList();
        Assert.Contains("cage to spokes on the largest cog", labels[2], StringComparison.Ordinal);
    }

    [Fact]
    public void Unknown_SpokesAndFrame_AreNotDrawnAndSaidSo()
    {
        var scene = TopView.Draw(WorkedExample.Table, new(34, 34));
        Assert.DoesNotContain(scene.Shapes.OfType<Label>(), l => l.Text is "spokes" or "frame");
        Assert.Equal(
            5,
            scene
                .Shapes.OfType<Label>()
                .Count(l => l.Bold && l.Text.StartsWith("CANNOT SAY", StringComparison.Ordinal))
        );
    }

    public static TheoryData<string> States =>
        [.. WorkedExample.EveryState().Select(s => s.Name), "lateral 34/34", "lateral 34/11"];

    [Theory]
    [MemberData(nameof(States))]
    public void Shapes_EveryState_LieInsideTheBoxAndTextsApart(string state)
    {
        var (table, gear) = state switch
        {
            "lateral 34/34" => (Table, new Gear(34, 34)),
            "lateral 34/11" => (Table, new Gear(34, 11)),
            _ => WorkedExample
                .EveryState()
                .Where(s => s.Name == state)
                .Select(s => (s.Table, s.Gear))
                .Single(),
        };
        var scene = TopView.Draw(table, gear);
        Assert.All(
            scene.Shapes,
            shape =>
            {
                var extent = Extent.Of(shape);
                Assert.InRange(extent.Left, scene.Left, scene.Right);
                Assert.InRange(extent.Right, scene.Left, scene.Right);
                Assert.InRange(extent.Bottom, scene.Bottom, scene.Top);
                Assert.InRange(extent.Top, scene.Bottom, scene.Top);
            }
        );
        var texts = scene.Shapes.OfType<Label>().Select(l => (l.Text, Extent.Of(l))).ToList();
        for (var i = 0; i < texts.Count; i++)
        {
            for (var j = i + 1; j < texts.Count; j++)
            {
                var (a, b) = (texts[i].Item2, texts[j].Item2);
                Assert.False(
                    a.Left < b.Right && b.Left < a.Right && a.Bottom < b.Top && b.Bottom < a.Top,
                    $"'{texts[i].Text}' and '{texts[j].Text}' overlap"
                );
            }
        }
    }

    [Fact]
    public void RearOnly_LargestCog_KeepsTheRoomToTheSpokesAndNothingOfTheRings()
    {
        var whole = TopView.Draw(Table, new(34, 34), new() { ShowWords = false });
        var rear = TopView.Draw(Table, new(34, 34), new() { ShowWords = false, RearOnly = true });

        Assert.True(rear.Width < 0.6 * whole.Width);
        Assert.Contains(
            rear.Shapes,
            shape =>
                shape is Dimension { Text: var t }
                && t.EndsWith("mm", StringComparison.Ordinal)
                && !t.StartsWith("cog", StringComparison.Ordinal)
        );
        Assert.NotNull(Dim(rear, "cog"));
        Assert.DoesNotContain(
            rear.Shapes,
            shape =>
                shape is Dimension { Text: var t } && t.StartsWith("ring", StringComparison.Ordinal)
        );
        // What is written or dimensioned is there whole.
        Assert.All(
            rear.Shapes.Where(shape => shape is Label or Dimension),
            shape =>
            {
                var box = Extent.Of(shape);
                Assert.InRange(box.Left, rear.Left, rear.Right);
                Assert.InRange(box.Right, rear.Left, rear.Right);
                Assert.InRange(box.Bottom, rear.Bottom, rear.Top);
                Assert.InRange(box.Top, rear.Bottom, rear.Top);
            }
        );
    }
}
