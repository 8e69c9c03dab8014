namespace Cogwright.Setup.Tests;

public sealed class WorksheetContentTests
{
    private static readonly WorksheetContent Content = WorksheetContent.Make(
        Bikes.Catalogue(Bikes.Double),
        Bikes.CableDouble
    );

    [Fact]
    public void Make_CableDouble_HoldsAllTargetsInOrder() =>
        Assert.Equal(
            Bikes.Targets(Bikes.Double, Bikes.CableDouble).Select(t => t.Id),
            Content.Stages.SelectMany(stage => stage.Targets).Select(t => t.Id)
        );

    [Fact]
    public void Make_EveryStage_HasTitleAndEachCautionOnce() =>
        Assert.All(
            Content.Stages,
            stage =>
            {
                Assert.NotEmpty(stage.Title);
                Assert.Equal(stage.Cautions.Distinct(), stage.Cautions);
                Assert.All(
                    stage.Targets.Select(t => t.Caution).OfType<string>(),
                    caution => Assert.Contains(caution, stage.Cautions)
                );
            }
        );

    [Fact]
    public void Make_TopCautions_PutMakerLawAndMechanicFirst()
    {
        Assert.Contains(
            "maker's instructions and local law",
            Content.Cautions[0],
            StringComparison.Ordinal
        );
        Assert.Contains("qualified mechanic", Content.Cautions[1], StringComparison.Ordinal);
        var assisted = WorksheetContent.Make(Bikes.Catalogue(Bikes.One), new() { Assisted = true });
        Assert.Contains(
            assisted.Cautions,
            c => c.Contains("battery out", StringComparison.Ordinal)
        );
        Assert.DoesNotContain(
            Content.Cautions,
            c => c.Contains("battery", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Make_EveryCaution_HasAShortFormInItsPlace()
    {
        Assert.Equal(Content.Cautions.Length, Content.CautionsInShort.Length);
        Assert.All(
            Content.Stages,
            stage => Assert.Equal(stage.Cautions.Length, stage.CautionsInShort.Length)
        );
        var front = Content.Stages.Single(stage => stage.Stage == WorkStage.Front);
        var derail = front.Targets.Single(t => t.Id == TargetNames.FrontInnerGap);
        Assert.Equal(
            derail.CautionInShort,
            front.CautionsInShort[front.Cautions.IndexOf(derail.Caution!)]
        );
    }

    [Fact]
    public void Make_ChainBox_SaysInnerAndOuter()
    {
        Assert.Equal(
            (110, 55, 55),
            (Content.Chain.Pitches, Content.Chain.InnerLinks, Content.Chain.OuterLinks)
        );
        Assert.Equal("110 pitches (55 inner + 55 outer)", Content.Chain.Headline);
        Assert.NotEmpty(Content.Chain.Lines);
    }

    [Fact]
    public void Make_ChainOtherThanRecommended_SaysSo()
    {
        var spec = Bikes.Double with { Chain = new() { Pitches = 112 } };
        var box = WorksheetContent.Make(Bikes.Catalogue(spec), Bikes.CableDouble).Chain;
        Assert.Equal(112, box.Pitches);
        Assert.Contains("recommends 110", box.Lines[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Turns_CableDouble_GoFromThreeTooSmallToThreeTooLarge()
    {
        var turns = Content.Turns!;
        Assert.Equal([-3, -2, -1, -0.5, 0, 0.5, 1, 2, 3], turns.Rows.Select(r => r.OffByMm));
        Assert.Equal((34, 34), turns.Gear);
        Assert.Equal("1 mm too large", turns.Rows[6].Gap);
        // Larger gaps ask for more turns the closing way (anticlockwise here), row by row.
        var values = turns.Rows.Select(r => r.Turns!.Value).ToArray();
        Assert.Equal(values.OrderDescending(), values);
        Assert.Equal(0, values[4]);
        Assert.Contains("anticlockwise", turns.Rows[^1].Action, StringComparison.Ordinal);
    }

    [Fact]
    public void Turns_OneRow_IsWhatTheReviewSays()
    {
        var catalogue = Bikes.Catalogue(Bikes.Double);
        Assert.All(
            Content.Turns!.Rows.Where(r => r.OffByMm != 0),
            row => Assert.Equal(catalogue.CorrectGap((34, 34), row.ReadMm, 7).Turns, row.Turns)
        );
    }

    [Fact]
    public void Turns_UnknownLever_GiveTheDirectionOnly()
    {
        var derailleur = Bikes.Double.RearDerailleur!;
        var spec = Bikes.Double with
        {
            RearDerailleur = derailleur with
            {
                BodyAngleScrew = derailleur.BodyAngleScrew! with { LeverRadiusMm = null },
            },
        };
        var turns = WorksheetContent.Make(Bikes.Catalogue(spec), Bikes.CableDouble).Turns!;
        Assert.Null(turns.Rows[0].Turns);
        Assert.Contains("½ turn clockwise", turns.WithoutTurns, StringComparison.Ordinal);
        Assert.Contains("½ turn anticlockwise", turns.WithoutTurns, StringComparison.Ordinal);
        Assert.Contains("½ turn clockwise", turns.Rows[0].Action, StringComparison.Ordinal);
        Assert.Contains(turns.Notes, n => n.Contains("direction only", StringComparison.Ordinal));
    }

    [Fact]
    public void Turns_OneGear_AreNone() =>
        Assert.Null(
            WorksheetContent
                .Make(Bikes.Catalogue(Bikes.Single), new() { Actuation = Actuation.None })
                .Turns
        );

    [Fact]
    public void Make_Assumptions_AreListed()
    {
        var spec = Bikes.Double with
        {
            Assumptions = [new("rearDerailleur.slant", "52°", "double, medium cage")],
        };
        var content = WorksheetContent.Make(Bikes.Catalogue(spec), Bikes.CableDouble);
        Assert.Equal(
            new AssumedValue("rearDerailleur.slant", "52°", "double, medium cage"),
            Assert.Single(content.Assumed)
        );
        Assert.Contains(
            content.Turns!.Notes,
            n => n.Contains("assumed values", StringComparison.Ordinal)
        );
    }
}
