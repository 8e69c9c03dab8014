using System.Text;
using PdfSharp.Drawing;

namespace Cogwright.Paper;

/// <summary>Breaks and shortens text so that it stays inside its width; nothing is ever printed over a neighbour.</summary>
internal sealed class TextFit : IDisposable
{
    private const string Ellipsis = "…";

    private readonly XGraphics _measure = XGraphics.CreateMeasureContext(
        new XSize(1000, 1000),
        XGraphicsUnit.Point,
        XPageDirection.Downwards
    );

    // The same words are measured many times while a sheet is tried in one setting after another.
    private readonly Dictionary<(string Text, double SizePt, bool Bold), double> _widths = [];

    // A block is measured before it is placed, and again by every block that it stands in.
    private readonly Dictionary<
        (string Text, double SizePt, bool Bold, double WidthPt, int MostLines),
        List<string>
    > _wrapped = [];

    /// <summary>Width of a text on one line (pt).</summary>
    internal double Width(string text, double sizePt, bool bold)
    {
        if (text.Length == 0)
        {
            return 0;
        }
        var key = (text, sizePt, bold);
        if (!_widths.TryGetValue(key, out var width))
        {
            width = _measure.MeasureString(text, Typeface.Of(sizePt, bold)).Width;
            _widths.Add(key, width);
        }
        return width;
    }

    /// <summary>The text on one line no wider than that (pt); what does not fit is replaced by an ellipsis.</summary>
    internal string Shorten(string text, double sizePt, bool bold, double widthPt)
    {
        if (Width(text, sizePt, bold) <= widthPt)
        {
            return text;
        }
        var end = text.Length;
        while (end > 0 && Width(text[..end].TrimEnd() + Ellipsis, sizePt, bold) > widthPt)
        {
            end--;
            if (end > 0 && char.IsHighSurrogate(text[end - 1]))
            {
                end--;
            }
        }
        return end == 0 ? "" : text[..end].TrimEnd() + Ellipsis;
    }

    /// <summary>
    /// The text in lines no wider than that (pt), broken at spaces, and inside a word only where the word alone is too
    /// wide. With a greatest number of lines the last one is shortened. The lines are kept for whoever asks next: they are
    /// not to be changed.
    /// </summary>
    internal List<string> Wrap(
        string text,
        double sizePt,
        bool bold,
        double widthPt,
        int mostLines = int.MaxValue
    )
    {
        var key = (text, sizePt, bold, widthPt, mostLines);
        if (_wrapped.TryGetValue(key, out var known))
        {
            return known;
        }
        var lines = new List<string>();
        foreach (var paragraph in text.Split('\n'))
        {
            WrapParagraph(paragraph, sizePt, bold, widthPt, lines);
        }
        if (lines.Count > mostLines)
        {
            var rest = string.Join(' ', lines.Skip(mostLines - 1));
            lines.RemoveRange(mostLines - 1, lines.Count - mostLines + 1);
            lines.Add(Shorten(rest, sizePt, bold, widthPt));
        }
        _wrapped.Add(key, lines);
        return lines;
    }

    private void WrapParagraph(
        string paragraph,
        double sizePt,
        bool bold,
        double widthPt,
        List<string> lines
    )
    {
        var line = new StringBuilder();
        foreach (var word in paragraph.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var rest = word;
            var joined = line.Length == 0 ? rest : line + " " + rest;
            if (Width(joined, sizePt, bold) <= widthPt)
            {
                line.Clear().Append(joined);
                continue;
            }
            if (line.Length > 0)
            {
                lines.Add(line.ToString());
                line.Clear();
            }
            while (Width(rest, sizePt, bold) > widthPt && rest.Length > 1)
            {
                var end = LongestStart(rest, sizePt, bold, widthPt);
                lines.Add(rest[..end]);
                rest = rest[end..];
            }
            line.Append(rest);
        }
        if (line.Length > 0)
        {
            lines.Add(line.ToString());
        }
    }

    private int LongestStart(string word, double sizePt, bool bold, double widthPt)
    {
        var end = word.Length - 1;
        while (end > 1 && Width(word[..end], sizePt, bold) > widthPt)
        {
            end--;
        }
        return end > 1 && char.IsHighSurrogate(word[end - 1]) ? end - 1 : end;
    }

    /// <inheritdoc/>
    public void Dispose() => _measure.Dispose();
}
