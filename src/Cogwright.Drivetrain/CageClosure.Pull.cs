namespace Cogwright.Drivetrain;

/// <content>How a chain of some tension pulls at the derailleur as a whole.</content>
internal partial struct CageClosure
{
    /// <summary>
    /// Force of a unit tension on cage and body together (N per N; x forward, y up), acting at the cage pivot beside the
    /// moment <see cref="TensionLeverMm"/>: the run to the cog pulls forward along itself, the lower run back along itself;
    /// the run between the pulleys is inner. As of the last evaluation.
    /// </summary>
    internal readonly Point PullPerTension
    {
        get
        {
            var (sin2, cos2) = Math.SinCos(direction2);
            var (sin4, cos4) = Math.SinCos(direction4);
            return new(cos4 - cos2, sin4 - sin2);
        }
    }
}
