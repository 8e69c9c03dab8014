using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>Headings of the stages.</summary>
public static class StageTitles
{
    /// <summary>The heading of a stage for what moves the derailleurs.</summary>
    public static string Of(WorkStage stage, Actuation actuation) =>
        Texts.Get(
            stage is WorkStage.CableOrPairing ? $"stage.{stage}.{actuation}" : $"stage.{stage}"
        );

    /// <summary>The heading of a stage for a bike.</summary>
    public static string Of(WorkStage stage, Actuation actuation, QuantityCatalogue catalogue)
    {
        ArgumentNullException.ThrowIfNull(catalogue);
        var variant =
            catalogue.IsOnAxle ? "onAxle"
            : catalogue.RestsInboard ? "atRest"
            : null;
        return (variant is null ? null : Texts.Find($"stage.{stage}.{variant}"))
            ?? Of(stage, actuation);
    }
}
