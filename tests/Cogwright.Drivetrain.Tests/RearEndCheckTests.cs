using static Cogwright.Drivetrain.Tests.RearEnds;

namespace Cogwright.Drivetrain.Tests;

/// <summary>Rear ends that cannot be are refused, and the link at fault is named.</summary>
public class RearEndCheckTests
{
    [Fact]
    public void FourBar_UpperLinkTooShort_IsNamed()
    {
        // Coupler and upper link nearly in one line: the first millimetres of travel pull them straight.
        var links = new FourBar(new(-20, 70), new(-385, 45), new(-30, 60), new(-200, 60));
        AssertProblem(links, 140, "frame.suspension.upperLink");
    }

    [Fact]
    public void SinglePivot_TravelBeyondItsTop_IsNamed() =>
        AssertProblem(new SinglePivot(new(-380, 50)), 140, "frame.suspension.pivot");

    [Fact]
    public void SinglePivot_OnTheAxle_IsNamed() =>
        AssertProblem(new SinglePivot(Rigid.Axle), 140, "frame.suspension.pivot");

    [Fact]
    public void FourBar_LinkWithoutLength_IsNamed() =>
        AssertProblem(
            Links with
            {
                LowerRearMm = Links.LowerFrameMm,
            },
            140,
            "frame.suspension.lowerLink"
        );

    [Fact]
    public void FourBar_CarriedByTheUpperLink_IsRefused() =>
        AssertProblem(
            Links with
            {
                Carries = LinkageMember.UpperLink,
            },
            140,
            "frame.suspension.axleOn"
        );

    [Fact]
    public void Shock_OnTheWrongSide_IsNamed()
    {
        var suspension = new Suspension
        {
            Linkage = Pivot,
            TravelMm = 40,
            TravelMeans = TravelMeaning.ShockStroke,
            Shock = new(new(0, -150), new(-150, 60)),
        };
        AssertProblem(suspension, "frame.suspension.shock");
    }

    [Fact]
    public void Shock_MissingWhereTravelIsItsStroke_IsNamed() =>
        AssertProblem(
            new Suspension
            {
                Linkage = Pivot,
                TravelMm = 40,
                TravelMeans = TravelMeaning.ShockStroke,
            },
            "frame.suspension.shock"
        );

    [Fact]
    public void Path_ShorterThanTheTravel_IsNamed() =>
        AssertProblem(
            new TabulatedPath([new(0, Rigid.Axle, 0), new(100, Rigid.Axle + new Point(0, 100), 0)]),
            140,
            "frame.suspension.travel"
        );

    [Fact]
    public void Path_TravelThatDoesNotRise_IsNamed() =>
        AssertProblem(
            new TabulatedPath([
                new(0, Rigid.Axle, 0),
                new(50, Rigid.Axle + new Point(0, 50), 0),
                new(50, Rigid.Axle + new Point(0, 50), 0),
                new(140, Rigid.Axle + new Point(0, 140), 0),
            ]),
            140,
            "frame.suspension.path[2].travel"
        );

    [Fact]
    public void Path_StrokeTakenForVertical_IsNamed() =>
        AssertProblem(
            new TabulatedPath([new(0, Rigid.Axle, 0), new(50, Rigid.Axle + new Point(0, 140), 0)]),
            50,
            "frame.suspension.path[1].y"
        );

    [Fact]
    public void Path_AwayFromTheAxle_IsNamed() =>
        AssertProblem(
            new TabulatedPath([
                new(0, Rigid.Axle + new Point(5, 0), 0),
                new(140, Rigid.Axle + new Point(5, 140), 0),
            ]),
            140,
            "frame.suspension.path[0].x"
        );

    [Theory]
    [InlineData(0)]
    [InlineData(double.NaN)]
    [InlineData(1000)]
    public void Suspension_AbsurdTravel_IsNamed(double travel) =>
        AssertProblem(Pivot, travel, "frame.suspension.travel");

    [Fact]
    public void Suspension_WithoutDerailleur_IsRefused()
    {
        var spec = Trail(OnPivot);
        var single = spec with { RearDerailleur = null, Cogs = spec.Cogs with { Teeth = [18] } };
        Assert.Contains(SpecCheck.Problems(single), p => p.Path == "frame.suspension");
    }

    [Fact]
    public void RearEnds_OfTheTests_HaveNoProblem()
    {
        Assert.Empty(SpecCheck.Problems(Trail(OnPivot)));
        Assert.Empty(SpecCheck.Problems(Trail(OnLinks)));
        Assert.Empty(SpecCheck.Problems(Trail(HighPivot)));
        Assert.Empty(SpecCheck.Problems(Trail(HighPivot, Over)));
    }

    private static void AssertProblem(RearLinkage linkage, double travel, string path) =>
        AssertProblem(new Suspension { Linkage = linkage, TravelMm = travel }, path);

    private static void AssertProblem(Suspension suspension, string path)
    {
        var problems = SpecCheck.Problems(Trail(Rigid with { Suspension = suspension }));
        Assert.Contains(problems, p => p.Path == path);
    }
}
