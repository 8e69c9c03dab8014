using System.Globalization;

namespace Cogwright.Gearing;

/// <summary>One gear by its numbers of teeth. Immutable.</summary>
/// <param name="Ring">Teeth of the ring.</param>
/// <param name="Cog">Teeth of the cog.</param>
public readonly record struct GearTeeth(int Ring, int Cog)
{
    /// <summary>Turns of the wheel per turn of the cranks.</summary>
    public double Ratio => (double)Ring / Cog;

    /// <summary>As the trade writes it: ring/cog, such as 34/30.</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Ring}/{Cog}");
}
