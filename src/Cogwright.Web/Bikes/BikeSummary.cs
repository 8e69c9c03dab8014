using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Facts;
using Cogwright.Parts;

namespace Cogwright.Web.Bikes;

/// <summary>What the list of bikes tells of one. Immutable.</summary>
/// <param name="Gearing">Rings and cogs, or that the spec has errors.</param>
/// <param name="Pitches">Chain length (pitches), or null when there is none to tell.</param>
/// <param name="IsStated">Whether the spec states the length; else it is the recommended one.</param>
/// <param name="IsRight">Whether the spec can be computed.</param>
internal sealed record BikeSummary(string Gearing, int? Pitches, bool IsStated, bool IsRight)
{
    /// <summary>The summary of a bike; takes as long as choosing its chain.</summary>
    internal static BikeSummary Of(BikeHistory history, PartLibrary? parts = null)
    {
        ArgumentNullException.ThrowIfNull(history);
        if (history.Sheet.Check(parts).Spec is not { } file)
        {
            return new(Texts.Get("home.errors"), null, false, false);
        }
        var stated = file.Drivetrain.Chain.Pitches;
        // The choice of a measured bike needs its fit first: what is stated needs neither.
        var pitches = stated ?? ComputedBike.Of(file).Table.Pitches;
        return new(
            GearingOf(
                [.. file.Drivetrain.Rings.Select(ring => ring.Teeth).OrderDescending()],
                file.Drivetrain.Cogs.Teeth
            ),
            pitches,
            stated is not null,
            true
        );
    }

    /// <summary>Rings by cogs as the trade writes it: 50/34 × 11–34, 12 cogs.</summary>
    internal static string GearingOf(ImmutableArray<int> rings, ImmutableArray<int> cogs)
    {
        var all = string.Join('/', rings);
        return cogs.Length == 1
            ? Texts.Get("home.gearingOne", all, cogs[0])
            : Texts.Get("home.gearing", all, cogs[0], cogs[^1], cogs.Length);
    }

    /// <summary>When the last change was made, by the time in its id (a version 7 UUID); null when the id tells none.</summary>
    internal static DateTimeOffset? ChangedAt(BikeHistory history)
    {
        ArgumentNullException.ThrowIfNull(history);
        if (
            history.Changes is not [.., { Id: var id }]
            || !Guid.TryParse(id, out var guid)
            || guid.Version != 7
        )
        {
            return null;
        }
        // RFC 9562: the first 48 bits are milliseconds since 1970.
        var ms = long.Parse(
            guid.ToString("N")[..12],
            NumberStyles.AllowHexSpecifier,
            CultureInfo.InvariantCulture
        );
        return DateTimeOffset.FromUnixTimeMilliseconds(ms);
    }

    /// <summary>A time as a workshop says it.</summary>
    /// <param name="when">The time, in the zone of <paramref name="now"/>.</param>
    /// <param name="now">The time now.</param>
    internal static string WhenInWords(DateTimeOffset when, DateTimeOffset now)
    {
        var days = (now.Date - when.Date).Days;
        return days switch
        {
            0 => Texts.Get("home.today", when),
            1 => Texts.Get("home.yesterday", when),
            _ => Texts.Get("home.day", when),
        };
    }
}
