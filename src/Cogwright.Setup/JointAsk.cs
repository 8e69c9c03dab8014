using Cogwright.Fastening;

namespace Cogwright.Setup;

/// <summary>What somebody says of bolts and of what they hold; what is null was not said. Immutable.</summary>
/// <param name="Bolt">What the bolts are made of.</param>
/// <param name="Thread">The thread, where it is not the usual one.</param>
/// <param name="Treatment">How thread and head are treated, where it is not as usual.</param>
/// <param name="Into">What the internal thread is cut into.</param>
/// <param name="EngagedMm">How long the threads engage (mm).</param>
/// <param name="Under">What the head presses on.</param>
/// <param name="MaxNm">Greatest torque printed on what is clamped (N·m).</param>
public sealed record JointAsk(
    BoltMaterial? Bolt,
    ScrewThread? Thread,
    ThreadTreatment? Treatment,
    NutMaterial? Into,
    double? EngagedMm,
    NutMaterial? Under,
    double? MaxNm
)
{
    /// <summary>Whether it asks what something bears; else thread and treatment alone have nothing to be held against.</summary>
    public bool IsAsked =>
        Bolt is not null || Into is not null || Under is not null || MaxNm is not null;

    /// <summary>Whether it speaks of one fastener and no other.</summary>
    public bool IsOfOne =>
        Thread is not null
        || Into is not null
        || EngagedMm is not null
        || Under is not null
        || MaxNm is not null;

    /// <summary>What a stop's fastener bears, or null when it is not asked, or its thread or head is not known.</summary>
    /// <param name="stop">The stop.</param>
    /// <param name="least">Least torque that it may get (N·m).</param>
    /// <param name="most">Greatest torque that it may get (N·m).</param>
    public JointResult? Of(PlannedStop stop, double least, double most)
    {
        ArgumentNullException.ThrowIfNull(stop);
        if (
            !IsAsked
            || (Thread ?? stop.Stop.Fastener.Thread) is not { } thread
            || !HeadBearing.Knows(thread.DiameterMm)
        )
        {
            return null;
        }
        return JointReview.Of(
            new()
            {
                Thread = thread,
                Bolt = Bolt,
                Head = HeadBearing.Socket(thread.DiameterMm),
                Treatment = Treatment ?? stop.Treatment,
                Nut = Into,
                EngagementMm = EngagedMm,
                Under = Under,
                PrintedMaxNm = MaxNm,
            },
            least,
            most
        );
    }
}
