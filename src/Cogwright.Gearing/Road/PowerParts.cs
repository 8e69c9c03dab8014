namespace Cogwright.Gearing;

/// <summary>Where the power goes (W). A negative part helps. Immutable.</summary>
/// <param name="Aero">Against the air: V_a|V_a|·V_G·½ρ(C_dA + F_w).</param>
/// <param name="Rolling">Against the road: V_G·cos(atan G)·C_rr·m_T·g.</param>
/// <param name="Bearings">In the wheels' bearings: V_G(91 + 8.7 V_G)/1000.</param>
/// <param name="Climbing">Against the slope: V_G·m_T·g·sin(atan G).</param>
/// <param name="Kinetic">Into speed: ½(m_T + I/r²)(V_f² − V_i²)/Δt.</param>
/// <param name="Efficiency">Share of the pedalling power that reaches the wheel, E_c.</param>
public readonly record struct PowerParts(
    double Aero,
    double Rolling,
    double Bearings,
    double Climbing,
    double Kinetic,
    double Efficiency
)
{
    /// <summary>At the wheel (W): the sum of the parts; negative when the bike would have to be braked.</summary>
    public double Net => Aero + Rolling + Bearings + Climbing + Kinetic;

    /// <summary>At the pedals (W): net over efficiency; 0 when nothing has to be pedalled.</summary>
    public double Pedals => Math.Max(Net, 0) / Efficiency;
}
