namespace Cogwright.Log;

/// <summary>What a check of a chain found. A chain that is intact has no finding.</summary>
public enum ChainStatus
{
    /// <summary>An entry is missing between others, or before all.</summary>
    Gap,

    /// <summary>Two entries have one number: the device was cloned, or its store was set back.</summary>
    Fork,

    /// <summary>An entry is not what it was when it was made.</summary>
    Altered,
}
