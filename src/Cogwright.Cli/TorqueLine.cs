using System.Collections.Immutable;
using Cogwright.Fastening;
using Cogwright.Measurement;
using Cogwright.Setup;

namespace Cogwright.Cli;

/// <summary>One stop of the walk round with what comes of the tools and bolts named.</summary>
/// <param name="Planned">The stop, with what bike and procedure say of it.</param>
/// <param name="Tools">The tools for it, the best first; empty when none was named or there is no figure.</param>
/// <param name="Joint">What its thread bears, or null when the bolt's material or its thread is not known.</param>
/// <param name="Read">What a reading comes to, or null.</param>
/// <param name="Treatment">How its thread is treated: as the procedure says, else as the trade does.</param>
internal sealed record TorqueLine(
    PlannedStop Planned,
    ImmutableArray<ToolAnswer> Tools,
    JointResult? Joint,
    TorqueResult? Read,
    ThreadTreatment Treatment
)
{
    /// <summary>The stop.</summary>
    internal WalkStop Stop => Planned.Stop;

    /// <summary>Whether it was asked what bolt and thread bear, and neither thread nor head is known well enough to say it.</summary>
    internal bool JointNotKnown { get; init; }

    /// <summary>The hazard that stands before it, or null.</summary>
    internal string? Caution => Planned.Caution;

    /// <summary>What to know of the figure where no part gives it, or null.</summary>
    internal string? FigureNote => Planned.FigureNote;

    /// <summary>Whether nothing is to be looked at: there is a figure, a tool that suits where tools are named, and it is borne.</summary>
    internal bool IsFine =>
        Stop.Figure is { Source: not TorqueSource.None, Conflict: null }
        && (Tools.IsEmpty || Tools[0].Suitability == Suitability.Suits)
        && Joint is not { Warnings.IsEmpty: false }
        && Read is null or { Verdict: null or Verdict.Within };

    /// <summary>A stop with its tools and its joint.</summary>
    internal static TorqueLine Of(
        PlannedStop planned,
        ImmutableArray<TorqueTool> tools,
        WrenchAdapter adapter,
        DateOnly today,
        JointAsk ask,
        TorqueReading? read
    )
    {
        var stop = planned.Stop;
        if (stop.Figure.Range is not { } range)
        {
            return new(planned, [], null, null, ask.Treatment ?? planned.Treatment);
        }
        var task = new TighteningTask(range)
        {
            IsLeftHand = stop.Place.IsLeftHand,
            Adapter = adapter,
            LeastSure = planned.LeastSure,
        };
        var ranked = ToolChoice.Rank(task, tools, today);
        var joint = JointOf(planned, range, ranked, ask);
        return new(
            planned,
            ranked,
            joint,
            read is null ? null : TorqueReview.Of(read, range),
            ask.Treatment ?? planned.Treatment
        )
        {
            JointNotKnown = ask.IsAsked && joint is null,
        };
    }

    // The torque with the whole deviation of the tool that is taken, where one is; else what is asked.
    private static JointResult? JointOf(
        PlannedStop planned,
        TorqueRange range,
        ImmutableArray<ToolAnswer> tools,
        JointAsk ask
    ) =>
        tools
            is [
                { Suitability: not Suitability.DoesNotSuit, LeastNm: { } least, MostNm: { } most },
                ..,
            ]
            ? ask.Of(planned, least, most)
            : ask.Of(planned, range.LowerNm, range.UpperNm);
}
