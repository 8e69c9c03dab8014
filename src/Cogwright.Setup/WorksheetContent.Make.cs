using System.Collections.Immutable;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <content>How the content is gathered.</content>
public sealed partial record WorksheetContent
{
    /// <summary>Gathers what the worksheet of a bike says.</summary>
    /// <exception cref="ArgumentException">The work cannot be done on this bike (<see cref="WorkCheck"/>).</exception>
    public static WorksheetContent Make(QuantityCatalogue catalogue, WorkSpec work)
    {
        ArgumentNullException.ThrowIfNull(catalogue);
        ArgumentNullException.ThrowIfNull(work);
        var targets = TargetList.Make(catalogue, work);
        return new()
        {
            BikeName = catalogue.BikeName,
            Gearing = catalogue.Gearing,
            Cautions = [.. General(work).Select(name => Texts.Get(name))],
            CautionsInShort = [.. General(work).Select(name => Texts.Get(name + ".short"))],
            Stages =
            [
                .. targets
                    .GroupBy(target => target.Stage)
                    .Select(group => new WorksheetStage(
                        group.Key,
                        StageTitles.Of(group.Key, work.Actuation, catalogue),
                        [.. group.Select(target => target.Caution).OfType<string>().Distinct()],
                        [.. group]
                    )
                    {
                        CautionsInShort =
                        [
                            .. group
                                .Where(target => target.Caution is not null)
                                .DistinctBy(target => target.Caution)
                                .Select(target => target.CautionInShort ?? target.Caution!),
                        ],
                    }),
            ],
            Chain = ChainWords.Box(catalogue),
            Turns = TurnTableMaker.Make(catalogue, targets),
            GearsNotToUse = catalogue.GearsNotToUse,
            Assumed = catalogue.Assumed,
        };
    }

    /// <summary>The cautions that hold for any work on the bike, by the keys of their sentences.</summary>
    internal static ImmutableArray<string> General(WorkSpec work) =>
        [
            "caution.maker",
            "caution.qualified",
            .. work.Assisted ? ["caution.battery"] : Array.Empty<string>(),
            "caution.turning",
        ];
}
