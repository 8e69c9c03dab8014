namespace Cogwright.Log;

/// <summary>What became of an entry that was given to a log.</summary>
public enum AddStatus
{
    /// <summary>It is in the order, and what waited only for it too.</summary>
    Entered,

    /// <summary>It is kept until its parents arrive.</summary>
    Waiting,

    /// <summary>It was there already, with the same content.</summary>
    Known,

    /// <summary>It was not taken in; see the fault.</summary>
    Refused,
}
