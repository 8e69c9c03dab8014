namespace Cogwright.Paper.Blocks;

/// <summary>
/// A box of the worksheet: knows its height for a width, and draws itself. What a block prints stays inside its box.
/// </summary>
internal abstract class Block
{
    /// <summary>What it is, for the record of the layout.</summary>
    internal abstract string Name { get; }

    /// <summary>Whether it may not be the last in a column: a heading belongs to what follows.</summary>
    internal virtual bool StaysWithNext => false;

    /// <summary>What it comes apart into when no page holds it whole; itself when it is of one piece.</summary>
    internal virtual IReadOnlyList<Block> Pieces => [this];

    /// <summary>Height that it needs (pt) when it is that wide (pt).</summary>
    internal abstract double Measure(Setting setting, double widthPt);

    /// <summary>Draws it in its box.</summary>
    internal abstract void Draw(Setting setting, Sheet sheet, PaperBox box);
}
