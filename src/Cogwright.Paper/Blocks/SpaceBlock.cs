namespace Cogwright.Paper.Blocks;

/// <summary>Room between two blocks.</summary>
internal sealed class SpaceBlock(double heightPt) : Block
{
    /// <inheritdoc/>
    internal override string Name => "space";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) => heightPt;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        // Nothing is drawn, and nothing is recorded.
    }
}
