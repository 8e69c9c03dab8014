using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <summary>Turns of a screw as a mechanic says them.</summary>
internal static class TurnWords
{
    /// <summary>Such as "1¾ turns anticlockwise"; turns are clockwise positive and not 0.</summary>
    internal static string Of(double turns) =>
        Texts.Get(
            Math.Abs(turns) > 1 ? "turn.many" : "turn.one",
            TurnAmount.Of(turns),
            Texts.Get(turns > 0 ? "turn.clockwise" : "turn.anticlockwise")
        );
}
