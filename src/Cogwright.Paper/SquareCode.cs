using System.Globalization;
using System.Text;
using QRCoder;

namespace Cogwright.Paper;

/// <summary>
/// A square code (ISO/IEC 18004, "QR") of some text as dots, quiet zone included; a quarter of it may be lost to grease
/// (error correction Q).
/// </summary>
public sealed class SquareCode
{
    private readonly bool[,] _dark;

    private SquareCode(bool[,] dark) => _dark = dark;

    /// <summary>Dots on a side, with four of quiet zone at each edge.</summary>
    public int Side => _dark.GetLength(0);

    /// <summary>Whether a dot is dark.</summary>
    /// <param name="row">From 0, from the top.</param>
    /// <param name="column">From 0, from the left.</param>
    public bool this[int row, int column] => _dark[row, column];

    /// <summary>The code of a text; at most some 1600 signs.</summary>
    /// <param name="text">The text.</param>
    public static SquareCode Of(string text)
    {
        ArgumentException.ThrowIfNullOrEmpty(text);
        using var data = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.Q);
        var rows = data.ModuleMatrix;
        var dark = new bool[rows.Count, rows.Count];
        for (var row = 0; row < rows.Count; row++)
        {
            for (var column = 0; column < rows.Count; column++)
            {
                dark[row, column] = rows[row][column];
            }
        }
        return new(dark);
    }

    /// <summary>Dark dots that touch within a row: row, first column, how many.</summary>
    public IEnumerable<(int Row, int First, int Length)> Runs()
    {
        for (var row = 0; row < Side; row++)
        {
            for (var column = 0; column < Side; column++)
            {
                var first = column;
                while (column < Side && _dark[row, column])
                {
                    column++;
                }
                if (column > first)
                {
                    yield return (row, first, column - first);
                }
            }
        }
    }

    /// <summary>The code as a drawing for a browser, black on white.</summary>
    /// <param name="title">What it is, for whoever does not see it.</param>
    public string ToSvg(string title)
    {
        var path = new StringBuilder();
        foreach (var (row, first, length) in Runs())
        {
            path.Append(CultureInfo.InvariantCulture, $"M{first} {row}h{length}v1h-{length}z");
        }
        return string.Create(
            CultureInfo.InvariantCulture,
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Side} {Side}\" shape-rendering=\"crispEdges\" role=\"img\"><title>{System.Net.WebUtility.HtmlEncode(title)}</title><rect width=\"{Side}\" height=\"{Side}\" fill=\"#fff\"/><path d=\"{path}\"/></svg>"
        );
    }
}
