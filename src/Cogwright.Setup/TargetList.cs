using System.Collections.Immutable;
using Cogwright.Setup.Catalogue;
using Cogwright.Setup.Targets;

namespace Cogwright.Setup;

/// <summary>Every target of a job in the built-in order of work.</summary>
public static class TargetList
{
    /// <summary>Makes the targets of a bike.</summary>
    /// <param name="catalogue">What the model says of it.</param>
    /// <param name="work">How it is shifted and what its makers ask for.</param>
    /// <returns>In the order of work (<see cref="StageOrder"/>); every <see cref="Target.Id"/> stands once.</returns>
    /// <exception cref="ArgumentException">The work cannot be done on this bike; <see cref="WorkCheck"/> says the same without throwing.</exception>
    public static ImmutableArray<Target> Make(QuantityCatalogue catalogue, WorkSpec work)
    {
        ArgumentNullException.ThrowIfNull(catalogue);
        ArgumentNullException.ThrowIfNull(work);
        if (WorkCheck.Problems(catalogue, work) is [var first, ..])
        {
            throw new ArgumentException($"{first.Path}: {first.Message}", nameof(work));
        }
        var bench = new Bench(catalogue, work);
        return
        [
            .. StageOrder
                .For(work.Actuation, bench.RestsInboard)
                .SelectMany(stage => Of(stage, bench)),
        ];
    }

    private static IEnumerable<Target> Of(WorkStage stage, Bench bench) =>
        stage switch
        {
            WorkStage.Inspection => GroundWork.Inspection(bench),
            WorkStage.WheelSeated => GroundWork.WheelSeated(bench),
            WorkStage.Hanger => GroundWork.Hanger(bench),
            WorkStage.Mounting => GroundWork.Mounting(bench),
            WorkStage.RoughStops => RearTargets.RoughStops(bench),
            WorkStage.Chain => ChainTargets.Make(bench),
            WorkStage.CableOrPairing => RearTargets.CableOrPairing(bench),
            WorkStage.SetUpCog => OnAxleTargets.SetUpCog(bench),
            WorkStage.OutboardStop => RearTargets.OutboardStop(bench),
            WorkStage.Index => RearTargets.Index(bench),
            WorkStage.InboardStop => RearTargets.InboardStop(bench),
            WorkStage.Gap => GapTargets.Make(bench),
            WorkStage.IndexAgain => RearTargets.Again(bench),
            WorkStage.Front => FrontTargets.Make(bench),
            WorkStage.Torque => TorqueTargets.WalkRound(bench),
            WorkStage.LoadedTest => TestTargets.Make(bench),
            _ => throw new ArgumentOutOfRangeException(nameof(stage), stage, null),
        };
}
