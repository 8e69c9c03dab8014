namespace Cogwright.Gearing;

/// <summary>How the circumference of a wheel is known.</summary>
public enum TyreSource
{
    /// <summary>From the size on the side wall, by geometry.</summary>
    Size,

    /// <summary>Rolled out under load and measured.</summary>
    RollOut,
}

/// <summary>
/// A tyre by its size (ISO 5775: width and diameter of the bead seat) or by its measured roll-out, with the spread within which
/// its circumference lies. Immutable.
/// </summary>
/// <remarks>
/// By size the circumference is π(d + 2w), the section taken as round. Published tables of roll-out differ from that, and from one
/// another for the same size: see <see cref="LeastM"/> and <see cref="MostM"/>. Rolled out, it is as sure as the measuring.
/// </remarks>
public sealed partial record Tyre
{
    /// <summary>Narrowest tyre (mm).</summary>
    public const double LeastWidthMm = 15;

    /// <summary>Widest tyre (mm).</summary>
    public const double MostWidthMm = 150;

    /// <summary>Smallest bead seat (mm).</summary>
    public const int LeastSeatMm = 130;

    /// <summary>Largest bead seat (mm).</summary>
    public const int MostSeatMm = 800;

    /// <summary>Shortest roll-out of one turn (mm).</summary>
    public const double LeastRollOutMm = 500;

    /// <summary>Longest roll-out of one turn (mm).</summary>
    public const double MostRollOutMm = 3200;

    /// <summary>
    /// How far a roll-out that was measured may be off (a fraction, either way): 0.5 %, for pressure, load and reading. Common
    /// practice; no published figure was found.
    /// </summary>
    public const double RollOutSpread = 0.005;

    // The most that published roll-outs lie below and above π(d + 2w): for a bead seat of 622 mm −0.59 % (38-622: 2180 mm) and
    // +1.65 % (25-622: 2146 mm); for all others −2.6 % (35-349: 1282 mm) and +1.98 % (34-540: 1948 mm). Rounded outward. The
    // values stand in testdata/published/tyre-roll-out.csv.
    private const double Below622 = 0.006;
    private const double Above622 = 0.017;
    private const double BelowOther = 0.0265;
    private const double AboveOther = 0.02;

    // Bead seats in the published tables that were read, and 355, 520, 547 from common practice; another is most often a slip of the pen.
    private static readonly int[] Seats =
    [
        203,
        288,
        305,
        349,
        355,
        369,
        406,
        451,
        507,
        520,
        540,
        547,
        559,
        571,
        584,
        590,
        597,
        622,
        630,
        635,
    ];

    private Tyre() { }

    /// <summary>As it is written: 28-622, or 2105 mm.</summary>
    public required string Designation { get; init; }

    /// <summary>How the circumference is known.</summary>
    public required TyreSource Source { get; init; }

    /// <summary>Circumference: what one turn covers (m).</summary>
    public required double CircumferenceM { get; init; }

    /// <summary>Least circumference that published tables, or the measuring, allow (m).</summary>
    public required double LeastM { get; init; }

    /// <summary>Greatest circumference that published tables, or the measuring, allow (m).</summary>
    public required double MostM { get; init; }

    /// <summary>Width of the section (mm), or null when it was rolled out.</summary>
    public double? WidthMm { get; init; }

    /// <summary>Diameter of the bead seat (mm), or null when it was rolled out.</summary>
    public int? BeadSeatMm { get; init; }

    /// <summary>Diameter that goes with the circumference (m).</summary>
    public double DiameterM => CircumferenceM / Math.PI;

    /// <summary>Radius that goes with the circumference (m).</summary>
    public double RadiusM => CircumferenceM / (2 * Math.PI);

    /// <summary>Whether the bead seat is a usual one; true of a roll-out.</summary>
    public bool IsSeatListed => BeadSeatMm is not { } seat || Seats.Contains(seat);

    /// <summary>A tyre by its size.</summary>
    /// <param name="widthMm">Width of the section (mm, 15 to 150).</param>
    /// <param name="beadSeatMm">Diameter of the bead seat (mm, 130 to 800).</param>
    /// <exception cref="ImpossibleInputException">There is no such tyre.</exception>
    public static Tyre OfSize(double widthMm, int beadSeatMm)
    {
        Demand.Between(widthMm, LeastWidthMm, MostWidthMm, "tyre", "tyre.width");
        Demand.Between(beadSeatMm, LeastSeatMm, MostSeatMm, "tyre", "tyre.seat");
        var circumference = Math.PI * (beadSeatMm + (2 * widthMm)) / 1000;
        var (below, above) = beadSeatMm == 622 ? (Below622, Above622) : (BelowOther, AboveOther);
        return new()
        {
            Designation = FormattableString.Invariant($"{widthMm:0.#}-{beadSeatMm}"),
            Source = TyreSource.Size,
            CircumferenceM = circumference,
            LeastM = circumference * (1 - below),
            MostM = circumference * (1 + above),
            WidthMm = widthMm,
            BeadSeatMm = beadSeatMm,
        };
    }

    /// <summary>A tyre that was rolled out under load.</summary>
    /// <param name="rollOutMm">What one turn of the wheel covers (mm, 500 to 3200).</param>
    /// <exception cref="ImpossibleInputException">No wheel rolls that far in one turn.</exception>
    public static Tyre OfRollOut(double rollOutMm)
    {
        Demand.Between(rollOutMm, LeastRollOutMm, MostRollOutMm, "tyre", "tyre.rollOut");
        var circumference = rollOutMm / 1000;
        return new()
        {
            Designation = FormattableString.Invariant($"{rollOutMm:0.#} mm"),
            Source = TyreSource.RollOut,
            CircumferenceM = circumference,
            LeastM = circumference * (1 - RollOutSpread),
            MostM = circumference * (1 + RollOutSpread),
        };
    }
}
