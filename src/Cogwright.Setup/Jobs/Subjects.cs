using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Jobs;

/// <summary>
/// What a result is about, as a name: an adjuster that was set, a condition that was made, a fastener that was tightened, a
/// quantity that was read or looked at.
/// </summary>
public static class Subjects
{
    /// <summary>An adjuster of <see cref="ProcedureWords.Adjusters"/>.</summary>
    public static string Adjuster(string name) => "adjuster:" + name;

    /// <summary>A condition of <see cref="MechanismConditions"/>.</summary>
    public static string Condition(string name) => "condition:" + name;

    /// <summary>A fastener of <see cref="Fasteners"/>.</summary>
    public static string Torque(string fastener) => "torque:" + fastener;

    /// <summary>A quantity of a check.</summary>
    public static string Quantity(string name) => "quantity:" + name;

    /// <summary>A kind of part.</summary>
    internal static string Part(string name) => "part:" + name;

    /// <summary>What a step's result is about.</summary>
    /// <param name="step">The step.</param>
    public static IEnumerable<string> Of(ProcedureStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        return Set(step).Concat(Tightened(step)).Concat(Read(step)).Concat(Made(step)).Distinct();
    }

    /// <summary>
    /// What a step's result is the last word on: what it set; when nothing, what it tightened; when nothing, what it read; when
    /// nothing, what it made. What was read when an adjuster was set is void once another step has set it.
    /// </summary>
    internal static IEnumerable<string> Settled(ProcedureStep step) =>
        new[] { Set(step), Tightened(step), Read(step), Made(step) }.FirstOrDefault(some =>
            some.Any()
        )
        ?? [];

    private static IEnumerable<string> Set(ProcedureStep step) => step.Adjusts.Select(Adjuster);

    private static IEnumerable<string> Tightened(ProcedureStep step) =>
        step.Torque is { } torque ? [Torque(torque.Fastener)] : [];

    private static IEnumerable<string> Read(ProcedureStep step) =>
        step.Check is { } check ? [Quantity(check.Quantity)] : [];

    private static IEnumerable<string> Made(ProcedureStep step) => step.Makes.Select(Condition);
}
