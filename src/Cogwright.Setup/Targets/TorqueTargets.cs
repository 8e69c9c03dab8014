using Cogwright.Fastening;

namespace Cogwright.Setup.Targets;

/// <summary>Torques: those of the spec, else the trade's ranges.</summary>
internal static class TorqueTargets
{
    /// <summary>Where a fastener is tightened for the first time.</summary>
    internal static Target First(Bench bench, string fastener, WorkStage stage) =>
        Make(bench, fastener, stage, TargetNames.FirstTorque(fastener), "torque.first");

    /// <summary>Every fastener once more, named one by one, in an order that follows the bike.</summary>
    internal static IEnumerable<Target> WalkRound(Bench bench)
    {
        var specOnly = bench.Work.Torques.Select(t => t.Fastener).Except(Fasteners.All).Distinct();
        return Fastening
            .WalkRound.Order.Where(fastener => Applies(bench, fastener))
            .Concat(specOnly)
            .Select(fastener =>
                Make(
                    bench,
                    fastener,
                    WorkStage.Torque,
                    TargetNames.Torque(fastener),
                    "torque.again"
                )
            );
    }

    /// <summary>Whether the bike has the fastener; what the spec gives a torque for is there.</summary>
    internal static bool Applies(Bench bench, string fastener) =>
        bench.Work.Torques.Any(t => t.Fastener == fastener)
        || fastener switch
        {
            Fasteners.HangerScrews or Fasteners.RearMount => bench.Catalogue.HasRearDerailleur
                && !bench.IsOnAxle,
            Fasteners.Pulleys => bench.Catalogue.HasRearDerailleur,
            Fasteners.RearCable => bench.ShiftsRear && bench.IsCable,
            Fasteners.FrontCable => bench.ShiftsFront && bench.IsCable,
            Fasteners.FrontMount => bench.ShiftsFront,
            Fasteners.ShifterClamp => bench.Work.Actuation is not Actuation.None,
            Fasteners.Lockring => bench.Catalogue.Cogs.Length > 1,
            _ => true,
        };

    private static Target Make(
        Bench bench,
        string fastener,
        WorkStage stage,
        string id,
        string titleKey
    )
    {
        var key = Texts.OnAxle($"fastener.{fastener}", bench.IsOnAxle);
        var known = FastenerCatalogue.Find(fastener);
        var name = Texts.Find(key) ?? known?.Title ?? fastener;
        var caution = Texts.OnAxle($"caution.torque.{fastener}", bench.IsOnAxle);
        var target = new Target
        {
            Id = id,
            Stage = stage,
            Title = Texts.Get(titleKey, name),
            Convention = Texts.Get("torque.convention"),
            Unit = "N·m",
            IsTorque = true,
            Tool = Texts.Get("torque.tool"),
            Source = TargetSource.CommonPractice,
            TitleInShort = Texts.Find($"{key}.short"),
            Caution = Texts.Find(caution),
            CautionInShort = Texts.Find($"{caution}.short"),
        };
        if (bench.Work.Torques.FirstOrDefault(t => t.Fastener == fastener) is { } given)
        {
            return target with
            {
                Lower = given.LowerNm,
                Upper = given.UpperNm,
                Source = TargetSource.Spec,
                Tool = given.Tool ?? target.Tool,
            };
        }
        if (PracticeOf(bench, known) is not { } practice)
        {
            return target with
            {
                Note = Texts.Find($"fastener.{fastener}.noFigure") ?? Texts.Get("torque.noFigure"),
            };
        }
        return target with
        {
            Lower = practice.LowerNm,
            Upper = practice.UpperNm,
            Note = Texts.Find($"{key}.note") ?? Texts.Get("torque.practice"),
        };
    }

    // The trade's range is that of a through axle; the nuts of an axle in slots have no figure in it.
    private static TorqueRange? PracticeOf(Bench bench, Fastener? fastener) =>
        fastener?.Id != Fasteners.RearAxle ? fastener?.UsualRange
        : bench.Catalogue.AxleSlides ? null
        : fastener.RangeOf(
            bench.IsOnAxle ? FastenerKinds.ClampsDerailleur : FastenerKinds.ThroughAxle
        );
}
