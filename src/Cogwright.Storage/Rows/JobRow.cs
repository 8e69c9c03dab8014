namespace Cogwright.Storage;

/// <summary>
/// What a job of a bike has come to, worked out from its log and to be worked out again at any time: nothing here is a source.
/// </summary>
internal sealed class JobRow
{
    /// <summary>Ascends with the time at which its log last grew; search lists the highest first.</summary>
    public long Number { get; set; }

    public Guid Log { get; set; }

    /// <summary>The job's id; empty for a bike on which no job was begun.</summary>
    public string Job { get; set; } = "";

    public string Bike { get; set; } = "";

    public string Title { get; set; } = "";

    public string Kind { get; set; } = "";

    public string Stage { get; set; } = "";

    public string InHandsOf { get; set; } = "";

    public string Waits { get; set; } = "";

    public long BegunTicks { get; set; }

    public long LastTicks { get; set; }

    /// <summary>Null while it is open.</summary>
    public long? ClosedTicks { get; set; }

    /// <summary>The day (since 1 January of the year 1) on which something is due; null: nothing.</summary>
    public int? DueDay { get; set; }

    public string Due { get; set; } = "";

    public string Cause { get; set; } = "";

    public string ComebackOf { get; set; } = "";

    public long IntakeSeconds { get; set; }

    public long CompatibilitySeconds { get; set; }

    public long TargetsSeconds { get; set; }

    public long SetUpSeconds { get; set; }

    public long TestSeconds { get; set; }

    public long HandoverSeconds { get; set; }

    public long AftercareSeconds { get; set; }

    public long PauseSeconds { get; set; }
}
