using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;
using Cogwright.Setup.Procedures;
using Cogwright.Setup.Procedures.Expressions;

namespace Cogwright.Files;

/// <summary>Builds a procedure from its values.</summary>
internal sealed class ProcedureBinder(Leaves leaves, ProblemList problems)
{
    /// <summary>Longest timer (minutes): a day and a night of curing.</summary>
    private const double LongestTimer = 2880;

    internal Procedure Bind()
    {
        if (leaves.Count("steps") == 0)
        {
            problems.Error(leaves.NearestPlace("steps"), "steps", Texts.Get("procedure.noSteps"));
        }
        return new()
        {
            Title = leaves.Text("title")!,
            Purpose = leaves.Text("purpose") ?? "",
            Skill = leaves.Text("skill") ?? "",
            Tools = Each("tools", BindItem),
            Supplies = Each("supplies", BindItem),
            StartsWith = Names("startsWith"),
            HandsOver = Names("handsOver"),
            Steps = Each("steps", BindStep),
        };
    }

    private ProcedureItem BindItem(string path) =>
        new(leaves.Text($"{path}.id")!, leaves.Text($"{path}.name")!);

    private ProcedureStep BindStep(string path) =>
        new()
        {
            Id = leaves.Text($"{path}.id")!,
            Action = leaves.Text($"{path}.action")!,
            Part = leaves.Text($"{path}.part")!,
            Hazards = Each($"{path}.hazards", BindHazard),
            HazardsBehindAction =
                leaves.Count($"{path}.hazards") > 0
                && leaves
                    .NearestPlace($"{path}.hazards")
                    .CompareTo(leaves.NearestPlace($"{path}.action")) > 0,
            Acts = Names($"{path}.acts"),
            BlockedUntil = Names($"{path}.blockedUntil"),
            Makes = Names($"{path}.makes"),
            Clears = Names($"{path}.clears"),
            Adjusts = Names($"{path}.adjusts"),
            State = leaves.Text($"{path}.state") switch
            {
                "rough" => StepState.Rough,
                "final" => StepState.Final,
                _ => StepState.None,
            },
            DependsOn = new()
            {
                Steps = Names($"{path}.dependsOn.steps"),
                Parts = Names($"{path}.dependsOn.parts"),
                Adjusters = Names($"{path}.dependsOn.adjusters"),
                Readings = Names($"{path}.dependsOn.readings"),
            },
            Uses = Names($"{path}.uses"),
            Torque = leaves.HasGroup($"{path}.torque") ? BindTorque($"{path}.torque") : null,
            TimerMinutes = Timer($"{path}.timerMinutes"),
            Check = leaves.HasGroup($"{path}.check") ? BindCheck($"{path}.check") : null,
            Note = leaves.Text($"{path}.note") ?? "",
        };

    private StepHazard BindHazard(string path) =>
        new()
        {
            Signal = Chosen<SignalWord>($"{path}.signal"),
            Harm = Chosen<Harm>($"{path}.harm"),
            Nature = leaves.Text($"{path}.nature") ?? "",
            Consequence = leaves.Text($"{path}.consequence") ?? "",
            Avoidance = leaves.Text($"{path}.avoidance") ?? "",
            About = leaves.Text($"{path}.about"),
            Act = leaves.Text($"{path}.act"),
        };

    private StepTorque BindTorque(string path) =>
        new()
        {
            Fastener = leaves.Text($"{path}.fastener")!,
            Least = Figure($"{path}.least"),
            Most = Figure($"{path}.most"),
            ToolClass = leaves.Text($"{path}.toolClass"),
            Thread = leaves.Text($"{path}.thread"),
        };

    private StepCheck BindCheck(string path) =>
        new()
        {
            Quantity = leaves.Text($"{path}.quantity")!,
            Ring = Figure($"{path}.ring"),
            Cog = Figure($"{path}.cog"),
            Convention = leaves.Text($"{path}.convention"),
            Target = Figure($"{path}.target"),
            Tolerance = Figure($"{path}.tolerance"),
            Least = Figure($"{path}.least"),
            Most = Figure($"{path}.most"),
            Expected = leaves.Text($"{path}.expected"),
            Result = leaves.Text($"{path}.result"),
        };

    private double? Timer(string path)
    {
        var minutes = leaves.NumberOrNull(path);
        if (minutes is not null and not (> 0 and <= LongestTimer))
        {
            problems.Error(
                leaves.NearestPlace(path),
                path,
                Texts.Get("procedure.timer", minutes, LongestTimer)
            );
        }
        return minutes;
    }

    private T Chosen<T>(string path)
        where T : struct, Enum => Enum.Parse<T>(leaves.Text(path)!, ignoreCase: true);

    private Expression? Figure(string path) => leaves.Find(path)?.Value as Expression;

    private ImmutableArray<string> Names(string path) => Each(path, at => leaves.Text(at)!);

    private ImmutableArray<T> Each<T>(string list, Func<string, T> bind) =>
        [
            .. Enumerable
                .Range(0, leaves.Count(list))
                .Select(i => bind(string.Create(CultureInfo.InvariantCulture, $"{list}[{i}]"))),
        ];
}
