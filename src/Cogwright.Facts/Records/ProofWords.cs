using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Log;

namespace Cogwright.Facts.Records;

/// <summary>What a record says of the log that it comes from.</summary>
internal static class ProofWords
{
    /// <summary>Ends of chains, countersignature, and what that proves and what not.</summary>
    /// <param name="past">The entries that the record rests on.</param>
    /// <param name="statement">The server's statement, or null.</param>
    /// <param name="uncovered">How many of the entries it does not cover.</param>
    /// <param name="offsetMinutes">How far the times printed are ahead of UTC (minutes).</param>
    internal static ImmutableArray<string> Of(
        EntryLog past,
        HeadStatement? statement,
        int uncovered,
        int offsetMinutes
    )
    {
        var words = ImmutableArray.CreateBuilder<string>();
        words.Add(Texts.Get("proof.entries", past.Count, past.Tips.Length, past.Id));
        foreach (var tip in past.Tips)
        {
            words.Add(Texts.Get("proof.tip", tip.Device, tip.Sequence, tip.Hash));
        }
        if (statement is not null)
        {
            words.Add(
                Texts.Get(
                    "proof.stated",
                    statement.Serial,
                    Time(statement.ServerTicks, offsetMinutes),
                    past.Count - uncovered,
                    past.Count,
                    statement.Key
                )
            );
        }
        if (uncovered > 0)
        {
            words.Add(Texts.Get("proof.uncovered", uncovered));
        }
        words.Add(Texts.Get("proof.limits"));
        return words.ToImmutable();
    }

    /// <summary>A time as a clock so far ahead of UTC shows it.</summary>
    internal static string Time(long utcTicks, int offsetMinutes) =>
        new DateTime(
            Math.Clamp(
                utcTicks + (offsetMinutes * TimeSpan.TicksPerMinute),
                DateTime.MinValue.Ticks,
                DateTime.MaxValue.Ticks
            )
        ).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
