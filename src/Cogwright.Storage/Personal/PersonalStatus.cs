namespace Cogwright.Storage;

/// <summary>What became of a personal datum that was handed over.</summary>
public enum PersonalStatus
{
    /// <summary>It is on the disk.</summary>
    Stored,

    /// <summary>It was there already.</summary>
    Exists,

    /// <summary>It was not taken in; see the fault.</summary>
    Refused,
}
