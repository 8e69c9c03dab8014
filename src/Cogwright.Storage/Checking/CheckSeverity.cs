namespace Cogwright.Storage;

/// <summary>How bad a finding of a check is. Greater is worse.</summary>
public enum CheckSeverity
{
    /// <summary>Something to know: a cloned device, entries that still wait for others.</summary>
    Note,

    /// <summary>Something is not what it was, or is missing.</summary>
    Damage,
}
