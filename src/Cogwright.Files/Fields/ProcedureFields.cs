using Cogwright.Fastening;
using Cogwright.Setup.Procedures;

namespace Cogwright.Files.Fields;

/// <summary>The table of all fields of a procedure file, used as <see cref="SpecFields"/> is.</summary>
internal static class ProcedureFields
{
    /// <summary>Most steps; a longer procedure is several.</summary>
    internal const int MostSteps = 200;

    private const int MostItems = 60;

    /// <summary>How <see cref="StepState"/> is written.</summary>
    private static readonly IReadOnlyList<string> States = ["rough", "final"];

    private static readonly TextShape Text = new();
    private static readonly TextShape Paragraph = new(600);
    private static readonly TextShape Name = new(60);
    private static readonly ExpressionShape Figure = new();

    private static readonly ListShape Conditions = Choices(MechanismConditions.Names);
    private static readonly ListShape Adjusters = Choices(ProcedureWords.Adjusters);
    private static readonly ListShape Names = new(Name, MostItems);

    private static GroupShape Item { get; } =
        new([new("id", Name, Need.Required), new("name", Text, Need.Required)]);

    private static GroupShape Hazard { get; } =
        new([
            new("signal", Choice(Enum.GetNames<SignalWord>()), Need.Required),
            new("harm", Choice(Enum.GetNames<Harm>()), Need.Required),
            new("nature", Paragraph, Need.Optional),
            new("consequence", Paragraph, Need.Optional),
            new("avoidance", Paragraph, Need.Optional),
            new("about", Name, Need.Optional),
            new("act", new ChoiceShape(() => StepActs.Names), Need.Optional),
        ]);

    private static GroupShape DependsOn { get; } =
        new([
            new("steps", Names, Need.Optional),
            new("parts", Choices(ProcedureWords.Parts), Need.Optional),
            new("adjusters", Adjusters, Need.Optional),
            new("readings", Names, Need.Optional),
        ]);

    private static GroupShape Torque { get; } =
        new([
            new("fastener", new ChoiceShape(() => Fasteners.All), Need.Required),
            new("least", Figure, Need.Optional),
            new("most", Figure, Need.Optional),
            new("toolClass", new ChoiceShape(() => ProcedureWords.ToolClasses), Need.Optional),
            new("thread", new ChoiceShape(() => ProcedureWords.ThreadTreatments), Need.Optional),
        ]);

    private static GroupShape Check { get; } =
        new([
            new("quantity", Name, Need.Required),
            new("ring", Figure, Need.Optional),
            new("cog", Figure, Need.Optional),
            new("convention", Text, Need.Optional),
            new("target", Figure, Need.Optional),
            new("tolerance", Figure, Need.Optional),
            new("least", Figure, Need.Optional),
            new("most", Figure, Need.Optional),
            new("expected", Text, Need.Optional),
            new("result", Name, Need.Optional),
        ]);

    private static GroupShape Step { get; } =
        new([
            new("id", Name, Need.Required),
            new("hazards", new ListShape(Hazard, 10), Need.Optional),
            new("action", Text, Need.Required),
            new("part", new ChoiceShape(() => ProcedureWords.Parts), Need.Required),
            new("acts", Choices(StepActs.Names), Need.Optional),
            new("blockedUntil", Conditions, Need.Optional),
            new("makes", Conditions, Need.Optional),
            new("clears", Conditions, Need.Optional),
            new("adjusts", Adjusters, Need.Optional),
            new("state", new ChoiceShape(() => States), Need.Optional),
            new("dependsOn", DependsOn, Need.Optional),
            new("uses", Names, Need.Optional),
            new("torque", Torque, Need.Optional),
            new("timerMinutes", new NumberShape(), Need.Optional),
            new("check", Check, Need.Optional),
            new("note", Paragraph, Need.Optional),
        ]);

    /// <summary>The whole file.</summary>
    internal static GroupShape Procedure { get; } =
        new([
            new("format", new NumberChoiceShape([SpecFields.Format]), Need.Optional),
            new("title", Text, Need.Required),
            new("purpose", Paragraph, Need.Optional),
            new("skill", Text, Need.Optional),
            new("tools", new ListShape(Item, MostItems), Need.Optional),
            new("supplies", new ListShape(Item, MostItems), Need.Optional),
            new("startsWith", Conditions, Need.Optional),
            new("handsOver", Names, Need.Optional),
            new("steps", new ListShape(Step, MostSteps), Need.Required),
        ]);

    /// <summary>How a name of the program is written in a file: first letter small.</summary>
    internal static string Written(string name) => char.ToLowerInvariant(name[0]) + name[1..];

    private static ChoiceShape Choice(string[] names)
    {
        var written = names.Select(Written).ToArray();
        return new(() => written);
    }

    private static ListShape Choices(IReadOnlyList<string> names) =>
        new(new ChoiceShape(() => names), MostItems);
}
