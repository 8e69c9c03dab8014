namespace Cogwright.Fastening;

/// <summary>
/// An open end, crowfoot or extension between a torque wrench and the bolt. What stands out of the wrench's own line beyond its
/// drive makes the arm longer, so that the bolt gets more than the wrench says. Immutable.
/// </summary>
/// <remarks>
/// Equilibrium: one force F square to the wrench at the hand. About the drive it is M = F·L, which the wrench tells; about the
/// bolt T = F·(L + E·cos θ). So M = T·L/(L + E·cos θ). Square to the wrench (θ = 90°) cos θ is 0 and nothing changes; turned back
/// over the wrench (θ = 180°) the bolt gets less. A driver without a lever turns by a couple, which is the same about every
/// axis: there is nothing to correct.
/// </remarks>
public sealed record WrenchAdapter
{
    /// <summary>Greatest length of an adapter (mm).</summary>
    public const double MostLengthMm = 500;

    /// <summary>Greatest arm of a wrench (mm).</summary>
    public const double MostArmMm = 2000;

    /// <summary>Below this share of its own arm a wrench with an adapter turned back has no arm left to speak of.</summary>
    private const double LeastArmShare = 0.1;

    private WrenchAdapter(double lengthMm, double angleRad, double cosine)
    {
        LengthMm = Demand.Length(lengthMm, 0, MostLengthMm, nameof(lengthMm));
        AngleRad = angleRad;
        Cosine = cosine;
    }

    /// <summary>No adapter.</summary>
    public static WrenchAdapter None { get; } = new(0, 0, 1);

    /// <summary>E: centre of the wrench's drive to centre of the bolt (mm), 0 to 500.</summary>
    public double LengthMm { get; }

    /// <summary>θ: angle between the wrench's line, beyond its drive, and the adapter (rad): 0 in line, π/2 sideways, π turned back.</summary>
    public double AngleRad { get; }

    private double Cosine { get; }

    /// <summary>How much of the adapter lies in the wrench's line (mm): E·cos θ, negative when it is turned back.</summary>
    public double InLineMm => LengthMm * Cosine;

    /// <summary>In the wrench's own line, away from the hand.</summary>
    /// <param name="lengthMm">Drive to bolt (mm), 0 to 500.</param>
    /// <exception cref="ArgumentException">The length is out of range.</exception>
    public static WrenchAdapter InLine(double lengthMm) => new(lengthMm, 0, 1);

    /// <summary>Square to the wrench: the setting stays as it is. The cosine is 0 and not a rounding error.</summary>
    /// <param name="lengthMm">Drive to bolt (mm), 0 to 500.</param>
    /// <exception cref="ArgumentException">The length is out of range.</exception>
    public static WrenchAdapter Sideways(double lengthMm) => new(lengthMm, Math.PI / 2, 0);

    /// <summary>At an angle to the wrench's line.</summary>
    /// <param name="lengthMm">Drive to bolt (mm), 0 to 500.</param>
    /// <param name="angleRad">0 in line, π/2 sideways, π turned back over the wrench; to either side, −π to π.</param>
    /// <exception cref="ArgumentException">A figure is out of range.</exception>
    public static WrenchAdapter Angled(double lengthMm, double angleRad)
    {
        Demand.Range(angleRad, -Math.PI, Math.PI, nameof(angleRad));
        return Math.Abs(angleRad) == Math.PI / 2
            ? Sideways(lengthMm)
            : new(lengthMm, angleRad, Math.Cos(angleRad));
    }

    /// <summary>Whether a wrench of that arm keeps an arm with it: turned back over a short wrench it takes it away.</summary>
    /// <param name="armMm">L: centre of the drive to the middle of the hand (mm), above 0.</param>
    public bool LeavesArm(double armMm) => armMm + InLineMm >= LeastArmShare * armMm;

    /// <summary>What the bolt gets for each N·m that the wrench tells: (L + E·cos θ)/L.</summary>
    /// <param name="armMm">L: centre of the drive to the middle of the hand (mm), above 0, at most 2000.</param>
    /// <exception cref="ArgumentException">The arm is out of range, or the adapter turned back takes it away.</exception>
    public double Factor(double armMm)
    {
        if (!(armMm > 0))
        {
            throw new ArgumentException(
                Texts.Get("demand.length", armMm, 1, MostArmMm),
                nameof(armMm)
            );
        }
        Demand.Length(armMm, 0, MostArmMm, nameof(armMm));
        return LeavesArm(armMm)
            ? (armMm + InLineMm) / armMm
            : throw new ArgumentException(
                Texts.Get("adapter.noArm", LengthMm, armMm),
                nameof(armMm)
            );
    }

    /// <summary>M: what the wrench is set to (N·m) for the bolt to get <paramref name="torqueNm"/>.</summary>
    /// <param name="torqueNm">T: what the bolt is to get (N·m).</param>
    /// <param name="armMm">L: centre of the drive to the middle of the hand (mm).</param>
    /// <exception cref="ArgumentException">A figure is out of range.</exception>
    public double SettingNm(double torqueNm, double armMm) =>
        Demand.Torque(torqueNm, nameof(torqueNm)) / Factor(armMm);

    /// <summary>T: what the bolt gets (N·m) when the wrench tells <paramref name="settingNm"/>.</summary>
    /// <param name="settingNm">M: what the wrench tells (N·m).</param>
    /// <param name="armMm">L: centre of the drive to the middle of the hand (mm).</param>
    /// <exception cref="ArgumentException">A figure is out of range.</exception>
    public double TorqueNm(double settingNm, double armMm) =>
        Demand.Torque(settingNm, nameof(settingNm)) * Factor(armMm);

    /// <summary>
    /// How much more the bolt gets, in N·m for each millimetre that the hand slides away from the drive: −M·E·cos θ/L². Without an
    /// adapter a wrench tells its own torque wherever the hand is; with one in line the place of the hand counts.
    /// </summary>
    /// <param name="settingNm">M: what the wrench tells (N·m).</param>
    /// <param name="armMm">L: centre of the drive to the middle of the hand (mm).</param>
    public double PerHandMm(double settingNm, double armMm) =>
        -settingNm * InLineMm / (armMm * armMm);
}
