namespace Cogwright.Fastening;

/// <summary>The ring on which a head presses. Immutable.</summary>
public sealed record HeadBearing
{
    // d_w of hexagon heads (ISO 4014, product grade A) and of socket heads (ISO 4762), and the medium hole of ISO 273; all mm.
    private static readonly (double Diameter, double Hexagon, double Socket, double Hole)[] Sizes =
    [
        (3, 4.6, 5.07, 3.4),
        (4, 5.9, 6.53, 4.5),
        (5, 6.9, 8.03, 5.5),
        (6, 8.9, 9.38, 6.6),
        (8, 11.6, 12.33, 9),
        (10, 14.6, 15.33, 11),
        (12, 16.6, 17.23, 13.5),
    ];

    /// <summary>A ring.</summary>
    /// <param name="outerMm">d_w: outer diameter of the bearing face (mm), 1 to 100.</param>
    /// <param name="holeMm">d_h: diameter of the hole (mm), from 1 to below the outer one.</param>
    /// <exception cref="ArgumentException">A figure is out of range.</exception>
    public HeadBearing(double outerMm, double holeMm)
    {
        OuterMm = Demand.Length(outerMm, 1, 100, nameof(outerMm));
        HoleMm = Demand.Length(holeMm, 1, outerMm, nameof(holeMm));
    }

    /// <summary>d_w: outer diameter (mm).</summary>
    public double OuterMm { get; }

    /// <summary>d_h: diameter of the hole (mm).</summary>
    public double HoleMm { get; }

    /// <summary>D_Km: diameter at which its friction acts (mm), (d_w + d_h)/2. Source: VDI 2230.</summary>
    public double FrictionDiameterMm => (OuterMm + HoleMm) / 2;

    /// <summary>A_p: its area (mm²).</summary>
    public double AreaMm2 => Math.PI / 4 * ((OuterMm * OuterMm) - (HoleMm * HoleMm));

    /// <summary>Of a hexagon head (ISO 4014) on a medium hole (ISO 273).</summary>
    /// <param name="diameterMm">d (mm): 3, 4, 5, 6, 8, 10 or 12.</param>
    /// <exception cref="ArgumentException">No head of that size is known here.</exception>
    public static HeadBearing Hexagon(double diameterMm)
    {
        var (_, hexagon, _, hole) = Size(diameterMm);
        return new(hexagon, hole);
    }

    /// <summary>Of a socket head (ISO 4762), as on most bicycle bolts, on a medium hole (ISO 273).</summary>
    /// <param name="diameterMm">d (mm): 3, 4, 5, 6, 8, 10 or 12.</param>
    /// <exception cref="ArgumentException">No head of that size is known here.</exception>
    public static HeadBearing Socket(double diameterMm)
    {
        var (_, _, socket, hole) = Size(diameterMm);
        return new(socket, hole);
    }

    /// <summary>Whether heads of that size are known here.</summary>
    public static bool Knows(double diameterMm) => Sizes.Any(size => size.Diameter == diameterMm);

    private static (double Diameter, double Hexagon, double Socket, double Hole) Size(
        double diameterMm
    )
    {
        foreach (var size in Sizes)
        {
            if (size.Diameter == diameterMm)
            {
                return size;
            }
        }
        throw new ArgumentException(Texts.Get("head.unknown", diameterMm), nameof(diameterMm));
    }
}
