namespace Cogwright.Log;

/// <summary>What a check of a chain found. Greater is worse.</summary>
public enum ChainStatus
{
    /// <summary>Every entry is there from the first to the last one held, and each names the one before.</summary>
    Intact,

    /// <summary>An entry is missing between others, or before all.</summary>
    Gap,

    /// <summary>Two entries have one number: the device was cloned, or its store was set back.</summary>
    Fork,

    /// <summary>An entry is not what it was when it was made.</summary>
    Altered,
}
