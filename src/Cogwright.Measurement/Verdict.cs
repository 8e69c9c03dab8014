namespace Cogwright.Measurement;

/// <summary>What a reading proves about a tolerance band.</summary>
public enum Verdict
{
    /// <summary>The value lies within, whatever this gauge's uncertainty.</summary>
    Within,

    /// <summary>The value lies outside, whatever this gauge's uncertainty.</summary>
    Outside,

    /// <summary>With this gauge neither is proven.</summary>
    TooCloseToCall,
}
