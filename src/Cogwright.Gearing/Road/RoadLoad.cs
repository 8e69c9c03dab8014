namespace Cogwright.Gearing;

/// <summary>What a bike with its rider is to the road and the air. Masses kg, areas m², the rest as told. Immutable.</summary>
/// <remarks>
/// Symbols and model: Martin, Milliken, Cobb, McFadden, Coggan, "Validation of a mathematical model for road cycling power",
/// J. Appl. Biomech. 14(3), 1998, 276–291. See docs/theory/gearing.md.
/// </remarks>
public sealed record RoadLoad
{
    /// <summary>Standard acceleration of free fall (m/s²).</summary>
    public const double StandardGravity = 9.80665;

    /// <summary>Air at 15 °C and sea level (kg/m³). Source: ISO 2533, standard atmosphere.</summary>
    public const double StandardAir = 1.225;

    /// <summary>Mass of bike and rider, with all they carry, m_T (kg, 20 to 500).</summary>
    public required double MassKg { get; init; }

    /// <summary>Drag area C_dA of bike and rider (m², 0.1 to 2).</summary>
    public required double DragAreaM2 { get; init; }

    /// <summary>Coefficient of rolling resistance C_rr (0.0005 to 0.1).</summary>
    public required double RollingCoefficient { get; init; }

    /// <summary>Share of the pedalling power that reaches the wheel E_c (0.5 to 1); 0.976 unless told (Martin et al. 1998).</summary>
    public double DriveEfficiency { get; init; } = 0.976;

    /// <summary>Drag area of the turning spokes F_w (m², 0 to 0.05); 0.0044 unless told (Martin et al. 1998).</summary>
    public double WheelDragAreaM2 { get; init; } = 0.0044;

    /// <summary>Moment of inertia of both wheels I (kg·m², 0 to 2); 0.14 unless told (Martin et al. 1998).</summary>
    public double WheelInertiaKgM2 { get; init; } = 0.14;

    /// <summary>Radius of the tyre r (m, 0.1 to 0.6); 0.311 unless told (Martin et al. 1998).</summary>
    public double TyreRadiusM { get; init; } = 0.311;

    /// <summary>Density of the air ρ (kg/m³, 0.5 to 1.6); 1.225 unless told.</summary>
    public double AirDensity { get; init; } = StandardAir;

    /// <summary>Acceleration of free fall g (m/s², 9.7 to 9.9); 9.80665 unless told.</summary>
    public double Gravity { get; init; } = StandardGravity;

    /// <summary>Mass with that of the turning wheels: m_T + I/r² (kg).</summary>
    public double MovingMassKg => MassKg + (WheelInertiaKgM2 / (TyreRadiusM * TyreRadiusM));

    /// <summary>This load, when every number is in its range.</summary>
    /// <exception cref="ImpossibleInputException">A number is out of its range; the message says which.</exception>
    public RoadLoad Checked()
    {
        Demand.Between(MassKg, 20, 500, "mass", "road.mass");
        Demand.Between(DragAreaM2, 0.1, 2, "dragArea", "road.dragArea");
        Demand.Between(RollingCoefficient, 0.0005, 0.1, "rolling", "road.rolling");
        Demand.Between(DriveEfficiency, 0.5, 1, "efficiency", "road.efficiency");
        Demand.Between(WheelDragAreaM2, 0, 0.05, "wheelDragArea", "road.wheelDragArea");
        Demand.Between(WheelInertiaKgM2, 0, 2, "wheelInertia", "road.wheelInertia");
        Demand.Between(TyreRadiusM, 0.1, 0.6, "tyreRadius", "road.tyreRadius");
        Demand.Between(AirDensity, 0.5, 1.6, "air", "road.air");
        Demand.Between(Gravity, 9.7, 9.9, "gravity", "road.gravity");
        return this;
    }
}
