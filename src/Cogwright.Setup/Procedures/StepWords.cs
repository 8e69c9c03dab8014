using Cogwright.Fastening;
using Cogwright.Parts;

namespace Cogwright.Setup.Procedures;

/// <summary>What steps name, in a mechanic's words: the same on screen and on paper.</summary>
public static class StepWords
{
    /// <summary>The part that a step is done on: one of <see cref="ProcedureWords.Parts"/>.</summary>
    public static string Part(string name) =>
        PartKinds.Find(name) is { } kind ? PartKinds.TitleOf(kind) : Texts.Get($"part.{name}");

    /// <summary>Adjusters, one behind the other: each one of <see cref="ProcedureWords.Adjusters"/>.</summary>
    public static string Adjusters(IEnumerable<string> names) =>
        string.Join(", ", names.Select(name => Texts.Get($"adjuster.{name}")));

    /// <summary>What a condition means: one of <see cref="MechanismConditions.Names"/>.</summary>
    public static string Condition(string name) =>
        MechanismConditions.All.First(condition => condition.Name == name).About;

    /// <summary>A signal word as it is printed, in capitals.</summary>
    public static string Signal(SignalWord signal) => Texts.Get($"signal.{signal}");

    /// <summary>A fastener: one of <see cref="Fasteners.All"/>.</summary>
    public static string Fastener(string name) => FastenerCatalogue.Find(name)?.Title ?? name;

    /// <summary>A kind of tool that tightens: one of <see cref="ProcedureWords.ToolClasses"/>; null says that none was named.</summary>
    public static string ToolClass(string? name) => Texts.Get($"toolClass.{name ?? "none"}");

    /// <summary>How a thread is treated: one of <see cref="ProcedureWords.ThreadTreatments"/>; null says that nothing was said.</summary>
    public static string Thread(string? name) => Texts.Get($"thread.{name ?? "none"}");
}
