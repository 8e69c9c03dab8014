namespace Cogwright.Setup;

/// <summary>Headings of the stages.</summary>
public static class StageTitles
{
    /// <summary>The heading of a stage for what moves the derailleurs.</summary>
    public static string Of(WorkStage stage, Actuation actuation) =>
        Texts.Get(
            stage is WorkStage.CableOrPairing ? $"stage.{stage}.{actuation}" : $"stage.{stage}"
        );
}
