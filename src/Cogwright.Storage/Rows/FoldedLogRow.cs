namespace Cogwright.Storage;

/// <summary>How far a log is worked out into <see cref="JobRow"/>s.</summary>
internal sealed class FoldedLogRow
{
    public Guid Log { get; set; }

    /// <summary>The receipt number up to which it is; below 0: something beside the log has changed, all of it anew.</summary>
    public long Receipt { get; set; }

    /// <summary>The version of the code that did it.</summary>
    public int Version { get; set; }
}
