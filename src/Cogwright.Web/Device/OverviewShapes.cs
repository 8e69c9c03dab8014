namespace Cogwright.Web.Device;

/// <summary>A job or a bike in the shop's list, as docs/how-to/server.md has it.</summary>
internal sealed record ListedShape(
    Guid Bike,
    string Name,
    string Job,
    string Title,
    string Kind,
    string Stage,
    string InHandsOf,
    string Waits,
    DateTimeOffset Begun,
    DateTimeOffset Last,
    DateTimeOffset? Closed,
    DateOnly? DueOn,
    string Due,
    string Cause,
    string ComebackOf,
    long WorkedSeconds
);

/// <summary>Open jobs of one person at one stage.</summary>
internal sealed record StandingShape(string Stage, string InHandsOf, long Jobs);

/// <summary>Comebacks of one cause.</summary>
internal sealed record CauseShape(string Cause, long Jobs);

/// <summary>What finished jobs of one kind took (h, mean), and what is planned.</summary>
internal sealed record TimesShape(
    string Kind,
    long Jobs,
    double[] StageHours,
    double PauseHours,
    double? PlannedHours,
    bool IsOwnPlan
);

/// <summary>What is planned for a kind of work (h).</summary>
internal sealed record PlannedShape(string Kind, double Hours, bool IsOwn);

/// <summary>The shop at a glance.</summary>
internal sealed record OverviewShape(
    DateTimeOffset At,
    long Behind,
    int Days,
    double PauseMinutes,
    string[] Stages,
    StandingShape[] Standing,
    ListedShape[] Waiting,
    ListedShape[] Due,
    CauseShape[] Comebacks,
    ListedShape[] CameBack,
    long Over,
    TimesShape[] Times,
    PlannedShape[] Plan
);

/// <summary>What was found.</summary>
internal sealed record FoundShape(ListedShape[] Jobs, bool HasMore);

/// <summary>Hours to be planned.</summary>
internal sealed record PlanShape(double? Hours);
