namespace Cogwright.Paper;

/// <summary>Gathers what is placed while a worksheet is drawn.</summary>
internal sealed class LayoutRecord
{
    internal List<PlacedBlock> Blocks { get; } = [];

    internal List<PlacedText> Printed { get; } = [];

    internal List<PlacedLength> Lengths { get; } = [];

    internal WorksheetLayout Close(
        (double Width, double Height) side,
        double marginPt,
        int sides
    ) => new(side.Width, side.Height, marginPt, sides, [.. Blocks], [.. Printed], [.. Lengths]);
}
