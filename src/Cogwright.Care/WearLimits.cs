using System.Collections.Immutable;

namespace Cogwright.Care;

/// <summary>The shop's limits of a chain's elongation, by number of cogs. Immutable.</summary>
public sealed record WearLimits
{
    /// <summary>Least limit that means anything (%): a new chain may be that long.</summary>
    public const double LeastPercent = 0.1;

    /// <summary>Greatest limit (%): chains of machines are thrown away at 3 % (200/N % on sprockets over 66 teeth).</summary>
    public const double MostPercent = 3;

    /// <summary>Fewest cogs.</summary>
    public const int FewestCogs = 1;

    /// <summary>Most cogs.</summary>
    public const int MostCogs = 14;

    /// <summary>Beyond this the cogs are held for worn too (%). Common practice.</summary>
    public const double UsualCogsToo = 1.0;

    /// <summary>What the shop set itself, by number of cogs (%).</summary>
    public ImmutableSortedDictionary<int, double> Own { get; init; } =
        ImmutableSortedDictionary<int, double>.Empty;

    /// <summary>The elongation at which new cogs are expected with the new chain (%).</summary>
    public double CogsTooPercent { get; init; } = UsualCogsToo;

    /// <summary>The limits of common practice.</summary>
    public static WearLimits CommonPractice { get; } = new();

    /// <summary>The limit for so many cogs and where it comes from.</summary>
    /// <param name="cogs">Number of cogs, or null when nobody said.</param>
    public WearLimit For(int? cogs)
    {
        if (cogs is { } count && Own.TryGetValue(count, out var own))
        {
            return new(own, Texts.Get("limit.own", count));
        }
        return cogs switch
        {
            null => new(0.5, Texts.Get("limit.unknown")),
            <= 8 => new(0.75, Texts.Get("limit.few")),
            9 => new(0.75, Texts.Get("limit.nine")),
            10 => new(0.5, Texts.Get("limit.ten")),
            _ => new(0.5, Texts.Get("limit.many")),
        };
    }

    /// <summary>What is wrong with a limit, or null.</summary>
    /// <param name="cogs">Number of cogs.</param>
    /// <param name="percent">The limit (%).</param>
    public static string? Problem(int cogs, double percent) =>
        cogs is < FewestCogs or > MostCogs ? Texts.Get("limit.cogs", cogs, FewestCogs, MostCogs)
        : percent is >= LeastPercent and <= MostPercent ? null
        : Texts.Get("limit.range", percent, LeastPercent, MostPercent);
}

/// <summary>A limit with its source. Immutable.</summary>
/// <param name="Percent">The limit (%).</param>
/// <param name="From">Where it comes from, in words.</param>
public sealed record WearLimit(double Percent, string From);
