namespace Cogwright.Setup.Jobs;

/// <summary>The stages of a job in words.</summary>
public static class JobStages
{
    /// <summary>A stage.</summary>
    /// <param name="stage">The stage.</param>
    public static string TitleOf(JobStage stage) => Texts.Get("stage." + stage);
}
