using System.Collections.Immutable;
using Cogwright.Fastening;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>Builds torque tools from their values and tells what in them does not go together.</summary>
internal sealed class TorqueToolsBinder(Leaves leaves, ProblemList problems)
{
    internal ImmutableArray<TorqueTool> Bind()
    {
        var tools = ImmutableArray.CreateBuilder<TorqueTool>();
        var names = new HashSet<string>(StringComparer.Ordinal);
        for (var i = 0; i < leaves.Count("torqueTools"); i++)
        {
            var path = $"torqueTools[{i}]";
            var tool = BindTool(path);
            foreach (var problem in TorqueToolCheck.Problems(tool))
            {
                Tell($"{path}.{problem.Field}", problem.Message);
            }
            if (!names.Add(tool.Name))
            {
                Tell($"{path}.name", Texts.Get("torqueTools.twice", tool.Name));
            }
            if (tool.Calibration.On is null)
            {
                problems.Remark(
                    leaves.NearestPlace(path),
                    path,
                    Texts.Get("torqueTools.noCalibration", tool.Name)
                );
            }
            tools.Add(tool);
        }
        return tools.ToImmutable();
    }

    private TorqueTool BindTool(string path) =>
        new()
        {
            Name = leaves.Text($"{path}.name")!,
            Class = ToolClass.Find(leaves.Text($"{path}.class")!)!,
            Unit = leaves.Text($"{path}.unit") is { } unit
                ? TorqueUnit.Find(unit)!
                : TorqueUnit.NewtonMetre,
            MinNm = leaves.NumberOrNull($"{path}.min"),
            MaxNm = leaves.Number($"{path}.max"),
            GraduationNm = leaves.NumberOrNull($"{path}.graduation"),
            ArmMm = leaves.NumberOrNull($"{path}.arm"),
            WorksLeftHand = leaves.Flag($"{path}.bothWays") ?? false,
            CertifiedDeviation = leaves.NumberOrNull($"{path}.deviation"),
            Calibration = new(
                leaves.Find($"{path}.calibration.on")?.Value as DateOnly?,
                leaves.WholeOrNull($"{path}.calibration.months") ?? Calibration.UsualMonths,
                leaves.WholeOrNull($"{path}.calibration.uses") ?? Calibration.UsualUses,
                leaves.WholeOrNull($"{path}.calibration.usesSince")
            ),
        };

    private void Tell(string path, string message) =>
        problems.Error(leaves.NearestPlace(path), path, message);
}
