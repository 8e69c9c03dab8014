namespace Cogwright.Drivetrain;

/// <summary>Where the rear axle stands farthest from the bottom bracket. It need not be at full compression.</summary>
/// <param name="TravelMm">The travel (mm).</param>
/// <param name="AxleToBracketMm">The distance there (mm).</param>
/// <param name="GrowthMm">How much more that is than fully extended (mm): the chain growth.</param>
public readonly record struct LongestPosition(
    double TravelMm,
    double AxleToBracketMm,
    double GrowthMm
)
{
    /// <summary>The longest position of a frame's rear end; of a rigid frame its only one.</summary>
    public static LongestPosition Of(Frame frame)
    {
        var rearEnd = RearEnd.Of(frame);
        var longest = TravelExtremes.Greatest(
            rearEnd.TravelMm,
            travel => rearEnd.At(travel).AxleToBracketMm
        );
        return new(
            longest.TravelMm,
            longest.Value,
            longest.Value - rearEnd.Extended.AxleToBracketMm
        );
    }
}
