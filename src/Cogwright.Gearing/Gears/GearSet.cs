using System.Collections.Immutable;

namespace Cogwright.Gearing;

/// <summary>The rings and cogs of one bike, or of one that might be built. Immutable.</summary>
public sealed record GearSet
{
    /// <summary>Fewest teeth of a ring or cog.</summary>
    public const int LeastTeeth = 5;

    /// <summary>Most teeth of a ring or cog; more is taken for a slip of the pen.</summary>
    public const int MostTeeth = 200;

    /// <summary>Most rings.</summary>
    public const int MostRings = 4;

    // Without positions: of six cogs one counts as the far end of the cassette, of twelve two (common practice).
    private const int CogsPerAcross = 6;

    private readonly ImmutableArray<bool> across;
    private readonly ImmutableArray<bool> used;

    /// <summary>Rings and cogs.</summary>
    /// <param name="name">What the set-up is called on every output.</param>
    /// <param name="rings">Teeth of the rings, in any order (5 to 200 each, at most four).</param>
    /// <param name="cogs">Teeth of the cogs, in any order (5 to 200 each).</param>
    /// <param name="notUsed">Gears that the rider is told not to use.</param>
    /// <param name="line">Where they stand sideways; null to go by which end of the cassette a cog is at.</param>
    /// <exception cref="ImpossibleInputException">There is no such set of rings and cogs; the message says why.</exception>
    public GearSet(
        string name,
        IEnumerable<int> rings,
        IEnumerable<int> cogs,
        IEnumerable<GearTeeth>? notUsed = null,
        ChainLine? line = null
    )
    {
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(rings);
        ArgumentNullException.ThrowIfNull(cogs);
        Name = name;
        Rings = Checked(rings, "rings");
        Cogs = Checked(cogs, "cogs");
        if (Rings.Length > MostRings)
        {
            throw new ImpossibleInputException(
                "rings",
                Texts.Get("rings.many", Rings.Length, MostRings)
            );
        }
        NotUsed = [.. notUsed ?? []];
        foreach (var gear in NotUsed)
        {
            if (!Rings.Contains(gear.Ring) || !Cogs.Contains(gear.Cog))
            {
                throw new ImpossibleInputException(
                    "gearsNotUsed",
                    Texts.Get(
                        "notUsed.unknown",
                        gear.Ring,
                        gear.Cog,
                        string.Join(", ", Rings),
                        string.Join(", ", Cogs)
                    )
                );
            }
        }
        Line = line;
        CheckLine();
        used =
        [
            .. Rings.SelectMany(ring =>
                Cogs.Select(cog => !NotUsed.Contains(new GearTeeth(ring, cog)))
            ),
        ];
        if (!used.Contains(true))
        {
            throw new ImpossibleInputException("gearsNotUsed", Texts.Get("notUsed.all"));
        }
        across =
        [
            .. Enumerable
                .Range(0, Rings.Length)
                .SelectMany(ring =>
                    Enumerable.Range(0, Cogs.Length).Select(cog => FindAcross(ring, cog))
                ),
        ];
    }

    /// <summary>What it is called on every output.</summary>
    public string Name { get; }

    /// <summary>Teeth of the rings, smallest first.</summary>
    public ImmutableArray<int> Rings { get; }

    /// <summary>Teeth of the cogs, smallest first.</summary>
    public ImmutableArray<int> Cogs { get; }

    /// <summary>Gears that the rider is told not to use.</summary>
    public ImmutableArray<GearTeeth> NotUsed { get; }

    /// <summary>Where rings and cogs stand sideways, or null.</summary>
    public ChainLine? Line { get; }

    /// <summary>How many gears there are, those not used among them.</summary>
    public int Count => Rings.Length * Cogs.Length;

    /// <summary>The gear of a ring and a cog, by their indices from the smallest.</summary>
    public GearTeeth At(int ring, int cog) => new(Rings[ring], Cogs[cog]);

    /// <summary>
    /// Whether the chain runs across in that gear: at <see cref="ChainLine.AcrossRad"/> or more; without positions, on the
    /// largest ring with the largest cogs or on the smallest ring with the smallest (one of every six).
    /// </summary>
    /// <param name="ring">Index of the ring, 0 for the smallest.</param>
    /// <param name="cog">Index of the cog, 0 for the smallest.</param>
    public bool IsAcross(int ring, int cog) => across[(ring * Cogs.Length) + cog];

    /// <summary>The lowest gear that may be used; of equal ones that on the smaller ring.</summary>
    public GearTeeth Lowest
    {
        get
        {
            GearTeeth? lowest = null;
            for (var g = 0; g < Count; g++)
            {
                var gear = At(g / Cogs.Length, g % Cogs.Length);
                if (used[g] && !(lowest?.Ratio <= gear.Ratio))
                {
                    lowest = gear;
                }
            }
            return lowest!.Value;
        }
    }

    /// <summary>Whether the rider may use that gear.</summary>
    /// <param name="ring">Index of the ring, 0 for the smallest.</param>
    /// <param name="cog">Index of the cog, 0 for the smallest.</param>
    public bool IsUsed(int ring, int cog) => used[(ring * Cogs.Length) + cog];

    /// <summary>Two sets are the same when name, teeth and gears not used are, and the chain runs across in the same gears.</summary>
    public bool Equals(GearSet? other) =>
        other is not null
        && Name == other.Name
        && Rings.SequenceEqual(other.Rings)
        && Cogs.SequenceEqual(other.Cogs)
        && used.SequenceEqual(other.used)
        && across.SequenceEqual(other.across);

    /// <inheritdoc />
    public override int GetHashCode() => HashCode.Combine(Name, Rings.Length, Cogs.Length, Cogs[0]);

    private static ImmutableArray<int> Checked(IEnumerable<int> teeth, string what)
    {
        ImmutableArray<int> sorted = [.. teeth.Order()];
        var name = Texts.Get($"what.{what}");
        if (sorted.IsEmpty)
        {
            throw new ImpossibleInputException(what, Texts.Get("teeth.none", name));
        }
        for (var i = 0; i < sorted.Length; i++)
        {
            if (sorted[i] is < LeastTeeth or > MostTeeth)
            {
                throw new ImpossibleInputException(
                    what,
                    Texts.Get("teeth.range", sorted[i], LeastTeeth, MostTeeth, name)
                );
            }
            if (i > 0 && sorted[i] == sorted[i - 1])
            {
                throw new ImpossibleInputException(what, Texts.Get("teeth.twice", sorted[i], name));
            }
        }
        return sorted;
    }

    private void CheckLine()
    {
        if (Line is null)
        {
            return;
        }
        foreach (
            var (given, there, what) in (ReadOnlySpan<(int, int, string)>)
                [
                    (Line.RingLateralsMm.Length, Rings.Length, "rings"),
                    (Line.CogLateralsMm.Length, Cogs.Length, "cogs"),
                ]
        )
        {
            if (given != there)
            {
                throw new ImpossibleInputException(
                    "chainLine",
                    Texts.Get("line.count", given, Texts.Get($"what.{what}"), there)
                );
            }
        }
    }

    private bool FindAcross(int ring, int cog)
    {
        if (Line is not null)
        {
            return Line.AngleRad(ring, cog) >= ChainLine.AcrossRad;
        }
        if (Rings.Length < 2)
        {
            return false;
        }
        var ends = Math.Max(1, Cogs.Length / CogsPerAcross);
        return (ring == Rings.Length - 1 && cog >= Cogs.Length - ends) || (ring == 0 && cog < ends);
    }
}
