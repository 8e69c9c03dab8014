namespace Cogwright.Setup.Jobs;

/// <summary>The stages of a job, in their order.</summary>
public enum JobStage
{
    /// <summary>The bike comes in: asked, looked at, written down.</summary>
    Intake,

    /// <summary>Whether the parts belong together.</summary>
    Compatibility,

    /// <summary>What everything must come to.</summary>
    Targets,

    /// <summary>The work.</summary>
    SetUp,

    /// <summary>Every gear, on the stand, under load, on the road.</summary>
    Test,

    /// <summary>The bike goes out, with its record.</summary>
    Handover,

    /// <summary>What is looked at later.</summary>
    Aftercare,
}
