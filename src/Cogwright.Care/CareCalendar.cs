using System.Globalization;
using System.Text;

namespace Cogwright.Care;

/// <summary>
/// Reminders as a calendar file (RFC 5545): one event of a whole day for each item that has a day. It holds what the bike
/// needs and a code for the bike, and names nobody.
/// </summary>
public static class CareCalendar
{
    /// <summary>Longest line without its end (octets; RFC 5545, 3.1).</summary>
    public const int LongestLine = 75;

    /// <summary>The type of such a file.</summary>
    public const string MediaType = "text/calendar";

    /// <summary>The text of the file; in UTF-8, lines end with CR and LF.</summary>
    /// <param name="items">What falls due; items without a day are left out, and those overdue stand on <paramref name="today"/>.</param>
    /// <param name="bikeCode">
    /// A code that tells the bike apart and stays, such as the number on its tag; it enters the identities and the titles,
    /// so that it must name nobody.
    /// </param>
    /// <param name="today">The day of writing.</param>
    /// <param name="stampUtc">The moment of writing (UTC), to the second.</param>
    /// <exception cref="ArgumentException">The code is empty or the moment is not in UTC.</exception>
    public static string Write(
        IEnumerable<DueItem> items,
        string bikeCode,
        DateOnly today,
        DateTime stampUtc
    )
    {
        ArgumentNullException.ThrowIfNull(items);
        ArgumentException.ThrowIfNullOrWhiteSpace(bikeCode);
        if (stampUtc.Kind != DateTimeKind.Utc)
        {
            throw new ArgumentException(Texts.Get("demand.utc"), nameof(stampUtc));
        }
        var text = new StringBuilder();
        var stamp = stampUtc.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture);
        Line(text, "BEGIN:VCALENDAR");
        Line(text, "VERSION:2.0");
        Line(text, "PRODID:-//Cogwright//Care//EN");
        Line(text, "CALSCALE:GREGORIAN");
        foreach (var item in items)
        {
            if (item.Day is not { } due)
            {
                continue;
            }
            var day = due < today ? today : due;
            Line(text, "BEGIN:VEVENT");
            Line(text, $"UID:{item.Id}-{Code(bikeCode)}@cogwright.invalid");
            Line(text, $"DTSTAMP:{stamp}");
            Line(text, $"DTSTART;VALUE=DATE:{Date(day)}");
            Line(text, $"DTEND;VALUE=DATE:{Date(day.AddDays(1))}");
            Line(text, "SUMMARY:" + Escape(Texts.Get("calendar.summary", item.What, bikeCode)));
            Line(text, "DESCRIPTION:" + Escape($"{item.Why}\n{item.From}"));
            Line(text, "TRANSP:TRANSPARENT");
            Line(text, "END:VEVENT");
        }
        Line(text, "END:VCALENDAR");
        return text.ToString();
    }

    /// <summary>A text as RFC 5545, 3.3.11 writes it; signs that no text may hold are left out.</summary>
    /// <param name="text">The text.</param>
    public static string Escape(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var result = new StringBuilder(text.Length + 8);
        foreach (var sign in text.Replace("\r\n", "\n", StringComparison.Ordinal))
        {
            result.Append(
                sign switch
                {
                    '\\' => @"\\",
                    ';' => @"\;",
                    ',' => @"\,",
                    '\n' or '\r' => @"\n",
                    '\t' => "\t",
                    _ when char.IsControl(sign) => "",
                    _ => sign.ToString(),
                }
            );
        }
        return result.ToString();
    }

    private static string Date(DateOnly day) =>
        day.ToString("yyyyMMdd", CultureInfo.InvariantCulture);

    // FNV-1a: an identity needs no more than to stay, and no sign of the code that a calendar might not take.
    private static string Code(string bikeCode)
    {
        var hash = 14695981039346656037UL;
        foreach (var octet in Encoding.UTF8.GetBytes(bikeCode))
        {
            hash = (hash ^ octet) * 1099511628211UL;
        }
        return hash.ToString("x16", CultureInfo.InvariantCulture);
    }

    // A fold is CR, LF and a space, which counts to the new line, and never cuts a sign in two.
    private static void Line(StringBuilder text, string line)
    {
        var octets = 0;
        foreach (var rune in line.EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > LongestLine)
            {
                text.Append("\r\n ");
                octets = 1;
            }
            text.Append(rune.ToString());
            octets += rune.Utf8SequenceLength;
        }
        text.Append("\r\n");
    }
}
