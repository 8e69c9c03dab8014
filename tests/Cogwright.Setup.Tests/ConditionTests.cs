using System.Collections.Immutable;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Tests;

/// <summary>Proofs lapse when what they were made on is touched. Common practice throughout.</summary>
public class ConditionTests
{
    private const string Stop = MechanismConditions.InboardStopProven;
    private const string Hanger = MechanismConditions.HangerRead;
    private const string Joint = MechanismConditions.JointLoaded;
    private const string Brakes = MechanismConditions.BrakesChecked;
    private const string Torques = MechanismConditions.TorquesDone;

    private static readonly ImmutableHashSet<string> Proven =
    [
        Stop,
        Hanger,
        Joint,
        Brakes,
        Torques,
        "bike-held",
    ];

    private static readonly ProcedureStep Bare = new()
    {
        Id = "step",
        Action = "Do it",
        Part = "bike",
    };

    [Theory]
    [InlineData("inboard-stop", Stop)]
    [InlineData("body-angle", Stop)]
    [InlineData("offset-step", Stop)]
    [InlineData("hanger", Stop, Hanger)]
    [InlineData("outboard-stop")]
    [InlineData("barrel-adjuster")]
    [InlineData("front-height")]
    public void Adjuster_Set_EndsTheProofsThatItSpoils(string adjuster, params string[] ended) =>
        AssertEnds(Bare with { Adjusts = [adjuster] }, ended);

    [Theory]
    [InlineData("hangerScrews", Stop, Hanger)]
    [InlineData("rearMount", Stop)]
    [InlineData("lockring", Stop)]
    [InlineData("rearAxle", Stop)]
    [InlineData("pedals")]
    public void Fastener_Tightened_EndsTheProofsThatRestOnIt(
        string fastener,
        params string[] ended
    ) => AssertEnds(Bare with { Torque = new() { Fastener = fastener } }, ended);

    [Fact]
    public void Hanger_Bent_EndsItsReadingAndTheStop() =>
        AssertEnds(Bare with { Acts = ["bend-hanger"] }, Stop, Hanger);

    [Fact]
    public void Chain_Off_EndsTheJoint() =>
        AssertEnds(Bare with { Makes = ["chain-off"] }, [Joint], "chain-off");

    [Fact]
    public void Wheel_Out_EndsStopBrakesAndTorques() =>
        AssertEnds(Bare with { Makes = ["wheel-out"] }, [Stop, Brakes, Torques], "wheel-out");

    /// <summary>Said the other way round it is the same.</summary>
    [Theory]
    [InlineData("chain-on", Joint)]
    [InlineData("wheel-seated", Stop, Brakes, Torques)]
    public void WheelOrChain_NoLongerInPlace_EndsWhatRestsOnIt(
        string cleared,
        params string[] ended
    ) => AssertEnds(Bare with { Clears = [cleared] }, ended);

    [Fact]
    public void Step_ThatProvesWhatItSets_LeavesItProven() =>
        Assert.Equal(
            Proven,
            MechanismConditions.After(
                Proven,
                Bare with
                {
                    Adjusts = ["inboard-stop"],
                    Makes = [Stop],
                }
            )
        );

    private static void AssertEnds(ProcedureStep step, params string[] ended) =>
        AssertEnds(step, ended, []);

    private static void AssertEnds(ProcedureStep step, string[] ended, params string[] made) =>
        Assert.Equal(
            Proven.Except(ended).Union(made).Order(),
            MechanismConditions.After(Proven, step).Order()
        );
}
