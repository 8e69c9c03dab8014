using Cogwright.Files.Documents;
using nietras.SeparatedValues;

namespace Cogwright.Files;

/// <summary>
/// The rows of a parts file in CSV (RFC 4180). Rows and columns are split by the library; quotes are resolved here, so that every
/// cell keeps its exact place.
/// </summary>
internal sealed class CsvParts : IPartSource
{
    private static readonly char[] Separators = [',', ';', '\t'];

    private readonly ProblemList problems;
    private readonly SepReader? rows;
    private readonly List<PartCell> cells = [];

    /// <summary>The field of each column; null for one that is passed over.</summary>
    private readonly List<string?> columns = [];

    /// <summary>Where the next row begins.</summary>
    private int line = 1;
    private bool isOver;

    internal CsvParts(string text, ProblemList problems)
    {
        this.problems = problems;
        var separator = SeparatorOf(text);
        try
        {
            rows = Sep.New(separator)
                .Reader(o =>
                    o with
                    {
                        HasHeader = false,
                        DisableColCountCheck = true,
                        Unescape = false,
                    }
                )
                .FromText(text);
        }
        catch (Exception e) when (IsAboutContent(e))
        {
            TellUnreadable();
            return;
        }
        ReadHeader();
    }

    public IReadOnlyList<PartCell> Cells => cells;

    public Place Place { get; private set; } = Place.Start;

    public bool IsUnusable { get; private set; }

    public IEnumerable<string>? Columns => columns.OfType<string>();

    public bool Next()
    {
        if (IsUnusable)
        {
            return false;
        }
        while (MoveNext())
        {
            cells.Clear();
            Place = new(line, 1);
            var isBlank = true;
            var row = rows!.Current;
            if (IsOpen(row))
            {
                return false;
            }
            var start = 0;
            for (var i = 0; i < row.ColCount; i++)
            {
                var raw = row[i].Span;
                if (!raw.IsWhiteSpace())
                {
                    isBlank = false;
                    Take(i, raw, row.Span, start);
                }
                start += raw.Length + 1;
            }
            line += 1 + LinesIn(row.Span);
            if (!isBlank)
            {
                return true;
            }
        }
        return false;
    }

    public void Dispose() => rows?.Dispose();

    /// <summary>Whether a quote in this row is never closed: it has taken all that follows with it.</summary>
    private bool IsOpen(SepReader.Row row)
    {
        if (row.Span.Count('"') % 2 == 0)
        {
            return false;
        }
        var start = 0;
        for (var i = 0; i < row.ColCount; i++)
        {
            var raw = row[i].Span;
            if (raw.Count('"') % 2 == 1)
            {
                problems.Error(PlaceIn(row.Span, start), "", Texts.Get("parts.quoteOpen"));
                break;
            }
            start += raw.Length + 1;
        }
        IsUnusable = true;
        isOver = true;
        return true;
    }

    private void Take(int column, ReadOnlySpan<char> raw, ReadOnlySpan<char> row, int start)
    {
        var name = column < columns.Count ? columns[column] : "";
        if (name is null)
        {
            return;
        }
        var place = PlaceIn(row, start);
        if (name.Length == 0)
        {
            problems.Error(
                place,
                "",
                Texts.Get("parts.extraCell", Quoting.Short(raw.Trim().ToString()), columns.Count)
            );
            return;
        }
        if (Unquoted(raw, out var wrong) is { } text)
        {
            if (text.Length > 0)
            {
                cells.Add(new(name, text, null, place));
            }
            return;
        }
        problems.Error(place, name, Texts.Get(wrong));
    }

    /// <summary>The text of a cell, or null with the sentence about what is wrong.</summary>
    private static string? Unquoted(ReadOnlySpan<char> raw, out string wrong)
    {
        wrong = "";
        var cell = raw.Trim();
        if (!cell.Contains('"'))
        {
            return cell.ToString();
        }
        if (cell[0] != '"')
        {
            wrong = "parts.quoteInside";
            return null;
        }
        if (cell.Length < 2 || cell[^1] != '"')
        {
            wrong = "parts.quoteOpen";
            return null;
        }
        var inner = cell[1..^1];
        for (var i = 0; i < inner.Length; i++)
        {
            if (inner[i] == '"')
            {
                if (i + 1 >= inner.Length || inner[i + 1] != '"')
                {
                    wrong = "parts.quoteInside";
                    return null;
                }
                i++;
            }
        }
        return inner.ToString().Replace("\"\"", "\"", StringComparison.Ordinal).Trim();
    }

    private void ReadHeader()
    {
        var isHeader = false;
        while (!isHeader && MoveNext())
        {
            var row = rows!.Current;
            isHeader = !row.Span.IsWhiteSpace();
            if (IsOpen(row))
            {
                return;
            }
            if (isHeader)
            {
                var start = 0;
                for (var i = 0; i < row.ColCount; i++)
                {
                    var raw = row[i].Span;
                    columns.Add(ColumnOf(raw, PlaceIn(row.Span, start)));
                    start += raw.Length + 1;
                }
            }
            line += 1 + LinesIn(row.Span);
        }
        if (!isHeader)
        {
            IsUnusable = true;
            problems.Error(Place.Start, "", Texts.Get("parts.noHeader"));
            return;
        }
        foreach (var needed in PartEntryReader.Needed)
        {
            if (!columns.Contains(needed))
            {
                IsUnusable = true;
                problems.Error(
                    new(Math.Max(1, line - 1), 1),
                    needed,
                    Texts.Get("parts.noColumn", needed)
                );
            }
        }
    }

    private string? ColumnOf(ReadOnlySpan<char> raw, Place place)
    {
        var name = Unquoted(raw, out _) ?? "";
        if (name.Length == 0)
        {
            // A column without a name holds notes that are nobody's field, or nothing.
            return null;
        }
        if (columns.Contains(name))
        {
            problems.Error(
                place,
                Quoting.Short(name),
                Texts.Get("parts.columnTwice", Quoting.Short(name))
            );
            return null;
        }
        if (PartEntryReader.WhyUnknown(name) is not { } why)
        {
            return name;
        }
        if (PartEntryReader.IsMeant(name))
        {
            // Passed over, it would leave the parts without what it says.
            problems.Error(place, Quoting.Short(name), why);
            return null;
        }
        problems.Remark(place, Quoting.Short(name), Texts.Get("parts.columnLeft", why));
        return null;
    }

    private bool MoveNext()
    {
        if (isOver || rows is null)
        {
            return false;
        }
        try
        {
            if (rows.MoveNext())
            {
                return true;
            }
        }
        catch (Exception e) when (IsAboutContent(e))
        {
            TellUnreadable();
        }
        isOver = true;
        return false;
    }

    private void TellUnreadable() =>
        problems.Error(new(line, 1), "", Texts.Get("parts.csvUnreadable"));

    /// <summary>What the splitting meets when a row is beyond all measure, mostly because a quote is never closed.</summary>
    private static bool IsAboutContent(Exception e) =>
        e
            is InvalidDataException
                or NotSupportedException
                or ArgumentException
                or InvalidOperationException
                or OverflowException
                or IndexOutOfRangeException;

    /// <summary>The separator that the header has most of outside quotes.</summary>
    private static char SeparatorOf(string text)
    {
        var counts = new int[Separators.Length];
        var isQuoted = false;
        var isAny = false;
        foreach (var c in text)
        {
            if (c is '\n' or '\r' && isAny && !isQuoted)
            {
                break;
            }
            isQuoted ^= c == '"';
            isAny |= !char.IsWhiteSpace(c);
            var at = Array.IndexOf(Separators, c);
            if (at >= 0 && !isQuoted)
            {
                counts[at]++;
            }
        }
        return Separators[Array.IndexOf(counts, counts.Max())];
    }

    private Place PlaceIn(ReadOnlySpan<char> row, int start)
    {
        var before = row[..Math.Min(start, row.Length)];
        var last = before.LastIndexOfAny('\n', '\r');
        return new(line + LinesIn(before), start - last);
    }

    private static int LinesIn(ReadOnlySpan<char> text)
    {
        var lines = 0;
        for (var i = 0; i < text.Length; i++)
        {
            if (
                text[i] == '\n'
                || (text[i] == '\r' && (i + 1 >= text.Length || text[i + 1] != '\n'))
            )
            {
                lines++;
            }
        }
        return lines;
    }
}
