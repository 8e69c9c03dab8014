using System.Collections.Immutable;

namespace Cogwright.Care;

/// <summary>A figure of the shop's table of care: a limit or an interval, with what common practice says. Immutable.</summary>
public sealed record CareTerm
{
    private CareTerm(string name, string unit, double usual, double least, double most)
    {
        Name = name;
        Unit = unit;
        Usual = usual;
        Least = least;
        Most = most;
    }

    /// <summary>Compound left on a brake pad (mm).</summary>
    public static CareTerm Pad { get; } = new("pad", "mm", 0.5, 0.1, 5);

    /// <summary>Thickness of a brake rotor that carries no figure (mm).</summary>
    public static CareTerm Rotor { get; } = new("rotor", "mm", 1.5, 1, 3);

    /// <summary>Depth left of a rim pad's grooves (mm).</summary>
    public static CareTerm RimPad { get; } = new("rimPad", "mm", 1, 0.05, 3);

    /// <summary>What a wireless rear battery runs (h of riding).</summary>
    public static CareTerm WirelessHours { get; } = new("wirelessHours", "h", 60, 1, 1000);

    /// <summary>What a wired central battery runs (km).</summary>
    public static CareTerm WiredKm { get; } = new("wiredKm", "km", 800, 50, 10000);

    /// <summary>Charge of every battery at handover (%).</summary>
    public static CareTerm HandoverPercent { get; } = new("handoverPercent", "%", 80, 0, 100);

    /// <summary>Life of a coin cell (months).</summary>
    public static CareTerm CoinCellMonths { get; } = new("coinCellMonths", "months", 12, 1, 120);

    /// <summary>Life of cables and housing (months).</summary>
    public static CareTerm CableMonths { get; } = new("cableMonths", "months", 12, 1, 120);

    /// <summary>First recheck of fasteners, at the earliest (km).</summary>
    public static CareTerm FastenerKm { get; } = new("fastenerKm", "km", 100, 1, 10000);

    /// <summary>First recheck of fasteners, at the latest (km).</summary>
    public static CareTerm FastenerLatestKm { get; } = new("fastenerLatestKm", "km", 300, 1, 10000);

    /// <summary>Each further recheck of fasteners (km).</summary>
    public static CareTerm FastenerThenKm { get; } = new("fastenerThenKm", "km", 2000, 10, 50000);

    /// <summary>First check after handover (days).</summary>
    public static CareTerm FirstCheckDays { get; } = new("firstCheckDays", "days", 30, 1, 365);

    /// <summary>First check after handover (h of riding), whichever comes first.</summary>
    public static CareTerm FirstCheckHours { get; } = new("firstCheckHours", "h", 10, 1, 500);

    /// <summary>Chains that one set of cogs bears when each is replaced in time.</summary>
    public static CareTerm ChainsPerCogs { get; } = new("chainsPerCogs", "", 3, 1, 20);

    /// <summary>Speed by which hours and km are turned into one another (km/h).</summary>
    public static CareTerm SpeedKmh { get; } = new("speedKmh", "km/h", 20, 3, 60);

    /// <summary>All of them, in the order of the table.</summary>
    public static ImmutableArray<CareTerm> All { get; } =
    [
        Pad,
        Rotor,
        RimPad,
        WirelessHours,
        WiredKm,
        HandoverPercent,
        CoinCellMonths,
        CableMonths,
        FastenerKm,
        FastenerLatestKm,
        FastenerThenKm,
        FirstCheckDays,
        FirstCheckHours,
        ChainsPerCogs,
        SpeedKmh,
    ];

    /// <summary>Its name in files and entries; it stays.</summary>
    public string Name { get; }

    /// <summary>Its unit; empty for a count.</summary>
    public string Unit { get; }

    /// <summary>The figure of common practice.</summary>
    public double Usual { get; }

    /// <summary>Least figure that is taken.</summary>
    public double Least { get; }

    /// <summary>Greatest figure that is taken.</summary>
    public double Most { get; }

    /// <summary>What it is, in words.</summary>
    public string Title => Texts.Get("term." + Name);

    /// <summary>Where the figure of common practice comes from, in words.</summary>
    public string From => Texts.Get("term." + Name + ".from");

    /// <summary>The term with that name, or null.</summary>
    public static CareTerm? Find(string name) => All.FirstOrDefault(term => term.Name == name);

    /// <summary>What is wrong with a figure for it, or null.</summary>
    /// <param name="value">The figure, in <see cref="Unit"/>.</param>
    public string? Problem(double value) =>
        value >= Least && value <= Most
            ? null
            : Texts.Get("term.range", value, Least, Most, Unit).TrimEnd();
}

/// <summary>The shop's table of care: what it set itself, and common practice for the rest. Immutable.</summary>
public sealed record CareTable
{
    /// <summary>Common practice alone.</summary>
    public static CareTable CommonPractice { get; } = new();

    /// <summary>What the shop set itself, by the names of terms.</summary>
    public ImmutableSortedDictionary<string, double> Own { get; init; } =
        ImmutableSortedDictionary<string, double>.Empty;

    /// <summary>The limits of chains.</summary>
    public WearLimits Chain { get; init; } = WearLimits.CommonPractice;

    /// <summary>The figure of a term.</summary>
    /// <param name="term">The term.</param>
    public double this[CareTerm term]
    {
        get
        {
            ArgumentNullException.ThrowIfNull(term);
            return Own.TryGetValue(term.Name, out var own) ? own : term.Usual;
        }
    }

    /// <summary>Where the figure of a term comes from, in words.</summary>
    /// <param name="term">The term.</param>
    public string From(CareTerm term)
    {
        ArgumentNullException.ThrowIfNull(term);
        return Own.ContainsKey(term.Name) ? Texts.Get("term.own") : term.From;
    }
}
