namespace Cogwright.Fastening;

/// <summary>A bolt, what it is screwed into and what it clamps. What is null was not said, and is then not checked. Immutable.</summary>
public sealed record BoltedJoint
{
    /// <summary>The thread.</summary>
    public required ScrewThread Thread { get; init; }

    /// <summary>What the bolt is made of, or null.</summary>
    public BoltMaterial? Bolt { get; init; }

    /// <summary>Where its head presses.</summary>
    public required HeadBearing Head { get; init; }

    /// <summary>How thread and head are treated.</summary>
    public required ThreadTreatment Treatment { get; init; }

    /// <summary>What the internal thread is cut into, or null.</summary>
    public NutMaterial? Nut { get; init; }

    /// <summary>How long the threads engage (mm), above 0 and at most 100, or null.</summary>
    public double? EngagementMm { get; init; }

    /// <summary>What the head presses on, or null.</summary>
    public NutMaterial? Under { get; init; }

    /// <summary>Greatest torque printed on the part that is clamped (N·m): a bar, a tube, a carbon dropout; or null.</summary>
    public double? PrintedMaxNm { get; init; }
}
