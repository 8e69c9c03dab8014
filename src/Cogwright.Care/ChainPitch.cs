namespace Cogwright.Care;

/// <summary>The pitch of bicycle chain.</summary>
public static class ChainPitch
{
    /// <summary>1/2 in (ISO 9633): 12.7 mm from pin to pin of a new chain.</summary>
    public const double Mm = 12.7;

    /// <summary>Fewest pitches that are worth measuring over: below, the uncertainty of any rule is greater than the limits.</summary>
    public const int Fewest = 4;

    /// <summary>More pitches than any bicycle's chain has.</summary>
    public const int Most = 400;

    /// <summary>Length of so many pitches of new chain (mm).</summary>
    /// <param name="pitches">From <see cref="Fewest"/> to <see cref="Most"/>.</param>
    /// <exception cref="ArgumentException">Out of that range.</exception>
    public static double LengthMm(int pitches)
    {
        Demand.Between(pitches, Fewest, Most, nameof(pitches));
        return Mm * pitches;
    }
}
