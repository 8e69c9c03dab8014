using System.Collections.Immutable;

namespace Cogwright.Paper;

/// <summary>A rectangle on paper (pt from the sheet's upper left corner, y down).</summary>
/// <param name="Left">Left edge (pt).</param>
/// <param name="Top">Upper edge (pt).</param>
/// <param name="Width">Width (pt).</param>
/// <param name="Height">Height (pt).</param>
public readonly record struct PaperBox(double Left, double Top, double Width, double Height)
{
    /// <summary>Right edge (pt).</summary>
    public double Right => Left + Width;

    /// <summary>Lower edge (pt).</summary>
    public double Bottom => Top + Height;

    /// <summary>Whether another box lies inside this one, but for a slack (pt).</summary>
    public bool Contains(PaperBox other, double slackPt = 0.01) =>
        other.Left >= Left - slackPt
        && other.Top >= Top - slackPt
        && other.Right <= Right + slackPt
        && other.Bottom <= Bottom + slackPt;

    /// <summary>Whether another box covers part of this one by more than a slack (pt) both ways.</summary>
    public bool Overlaps(PaperBox other, double slackPt = 0.01) =>
        Math.Min(Right, other.Right) - Math.Max(Left, other.Left) > slackPt
        && Math.Min(Bottom, other.Bottom) - Math.Max(Top, other.Top) > slackPt;
}

/// <summary>A block that was placed: a box of the sheet, such as the chain box or one line of the work.</summary>
/// <param name="Side">Side of paper, from 0.</param>
/// <param name="Name">What it is, such as <c>chain</c> or <c>target:gap</c>.</param>
/// <param name="Box">Where it lies.</param>
public sealed record PlacedBlock(int Side, string Name, PaperBox Box);

/// <summary>A line of text that was printed.</summary>
/// <param name="Side">Side of paper, from 0.</param>
/// <param name="Block">Name of the block that it belongs to.</param>
/// <param name="Text">The text as printed.</param>
/// <param name="SizePt">Size of the type (pt).</param>
/// <param name="Ink">Where the line lies, from ascender to descender.</param>
/// <param name="Cell">The room it was given.</param>
public sealed record PlacedText(
    int Side,
    string Block,
    string Text,
    double SizePt,
    PaperBox Ink,
    PaperBox Cell
);

/// <summary>A length that must come out true in print: a step of the gap gauge, or the bar that proves the scale.</summary>
/// <param name="Side">Side of paper, from 0.</param>
/// <param name="Name">What it is, such as <c>bar</c> or <c>gauge-7</c>.</param>
/// <param name="NominalMm">What it stands for (mm).</param>
/// <param name="LengthPt">How long it was drawn (pt).</param>
public sealed record PlacedLength(int Side, string Name, double NominalMm, double LengthPt);

/// <summary>What lies where on a worksheet: what a test, or a person in doubt, can check without eyes. Immutable.</summary>
/// <param name="SideWidthPt">Width of a side (pt).</param>
/// <param name="SideHeightPt">Height of a side (pt).</param>
/// <param name="MarginPt">Margin kept free all round (pt).</param>
/// <param name="Sides">Number of sides.</param>
/// <param name="Blocks">The blocks.</param>
/// <param name="Printed">The lines of text.</param>
/// <param name="Lengths">The lengths that must come out true.</param>
public sealed record WorksheetLayout(
    double SideWidthPt,
    double SideHeightPt,
    double MarginPt,
    int Sides,
    ImmutableArray<PlacedBlock> Blocks,
    ImmutableArray<PlacedText> Printed,
    ImmutableArray<PlacedLength> Lengths
);
