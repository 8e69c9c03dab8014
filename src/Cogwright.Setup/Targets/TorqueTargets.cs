namespace Cogwright.Setup.Targets;

/// <summary>Torques: those of the spec, else the trade's ranges.</summary>
internal static class TorqueTargets
{
    // Common practice, N·m: ranges of the trade; the part's own figure wins. Where practice differs by kind of part the
    // lower kind stands here and the note names the others: too little torque is found by the hand, too much breaks.
    private static readonly Dictionary<string, (double Lower, double Upper)> Practice = new()
    {
        [Fasteners.RearAxle] = (9, 15),
        [Fasteners.HangerScrews] = (1, 2),
        [Fasteners.Lockring] = (29, 50),
        [Fasteners.RearMount] = (8, 10),
        [Fasteners.Pulleys] = (3, 4),
        [Fasteners.RearCable] = (5, 7),
        [Fasteners.ShifterClamp] = (2.5, 5),
        [Fasteners.FrontMount] = (5, 7),
        [Fasteners.FrontCable] = (5, 7),
        [Fasteners.RingBolts] = (8, 11),
        [Fasteners.CrankPinch] = (12, 15),
        [Fasteners.Pedals] = (35, 40),
    };

    // The one figure that the trade hands on for an axle that clamps the derailleur, and our 1 N·m either way.
    private static readonly (double Lower, double Upper) OnAxlePractice = (34, 36);

    /// <summary>Where a fastener is tightened for the first time.</summary>
    internal static Target First(Bench bench, string fastener, WorkStage stage) =>
        Make(bench, fastener, stage, TargetNames.FirstTorque(fastener), "torque.first");

    /// <summary>Every fastener once more, named one by one.</summary>
    internal static IEnumerable<Target> WalkRound(Bench bench)
    {
        var specOnly = bench.Work.Torques.Select(t => t.Fastener).Except(Fasteners.All).Distinct();
        return Fasteners
            .All.Where(fastener => Applies(bench, fastener))
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
        var name = Texts.Find(key) ?? fastener;
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
        if (!HasPractice(bench, fastener))
        {
            return target with
            {
                Note = Texts.Find($"fastener.{fastener}.noFigure") ?? Texts.Get("torque.noFigure"),
            };
        }
        var (lower, upper) =
            bench.IsOnAxle && fastener == Fasteners.RearAxle ? OnAxlePractice : Practice[fastener];
        return target with
        {
            Lower = lower,
            Upper = upper,
            Note = Texts.Find($"{key}.note") ?? Texts.Get("torque.practice"),
        };
    }

    // The trade's range is that of a through axle; the nuts of an axle in slots have no figure in it.
    private static bool HasPractice(Bench bench, string fastener) =>
        Practice.ContainsKey(fastener)
        && !(fastener == Fasteners.RearAxle && bench.Catalogue.AxleSlides);
}
