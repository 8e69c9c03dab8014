using Cogwright.Drivetrain;
using Cogwright.Files;
using Cogwright.Gearing;

namespace Cogwright.Cli;

/// <summary>One of the set-ups that are told, with what was computed of it.</summary>
/// <param name="Path">The file it was read from.</param>
/// <param name="Spec">What the file says.</param>
/// <param name="Ladder">Its gears.</param>
/// <param name="Order">The best order of shifts.</param>
/// <param name="CadencesRpm">The cadences that speeds are told for (rpm).</param>
internal sealed record GearSetUp(
    string Path,
    DrivetrainSpec Spec,
    GearLadder Ladder,
    ShiftOrder Order,
    double[] CadencesRpm
)
{
    internal static GearSetUp Of(
        string path,
        DrivetrainSpec spec,
        Tyre tyre,
        double? crankMm,
        double[] cadencesRpm
    )
    {
        try
        {
            var ladder = GearLadder.Of(SpecGears.Of(spec), tyre, crankMm);
            return new(path, spec, ladder, ShiftOrder.Best(ladder), cadencesRpm);
        }
        catch (ImpossibleInputException refused) when (refused.Input == "crank")
        {
            throw new BadInputException(Texts.Get("option.says", "--crank", refused.Message));
        }
        catch (ImpossibleInputException refused)
        {
            throw new BadInputException(Texts.Get("option.says", path, refused.Message));
        }
    }
}
