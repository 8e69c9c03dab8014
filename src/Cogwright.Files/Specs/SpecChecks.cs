using Cogwright.Drivetrain;
using Cogwright.Fastening;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>Checks a spec that was read: what cannot be, told at the place of the field.</summary>
internal static class SpecChecks
{
    /// <summary>No fastener on a bicycle is tighter than this (N·m); more is a wrong unit.</summary>
    private const double MostTorqueNm = 120;

    /// <summary>Beyond this a gap is no gap but a slip of the pen (mm).</summary>
    private const double MostGapMm = 50;

    internal static void Check(SpecFile spec, Leaves leaves, ProblemList problems)
    {
        var told = new HashSet<(string, string)>();
        foreach (var problem in SpecCheck.Problems(spec.Drivetrain))
        {
            var path = LateralBinder.AsWritten(leaves, problem.Path);
            if (!told.Add((path, problem.Message)))
            {
                // One field that serves many readings is wrong once.
                continue;
            }
            problems.Error(
                leaves.NearestPlace(path),
                path,
                leaves.PartAt(path) is { } part
                    ? Texts.Get("part.gives", part, path, problem.Message)
                    : problem.Message
            );
        }
        CheckGap(spec, leaves, problems);
        MountBinder.Check(leaves, problems);
        CheckTorques(leaves, problems);
        LateralChecks.Check(leaves, problems);
        if (leaves.StandsInFile("cogs.hubSpacing") && leaves.StandsInFile("cogs.smallestLateral"))
        {
            const string path = "cogs.hubSpacing";
            problems.Remark(leaves.NearestPlace(path), path, Texts.Get("remark.hubSpacing"));
        }
    }

    private static void CheckGap(SpecFile spec, Leaves leaves, ProblemList problems)
    {
        const string path = "rearDerailleur.gap";
        if (spec.Work.Gap is not { } gap)
        {
            return;
        }
        if (spec.Drivetrain.Rings.All(r => r.Teeth != gap.RingTeeth))
        {
            Tell($"{path}.ring", Texts.Get("check.noRing", gap.RingTeeth));
        }
        if (!spec.Drivetrain.Cogs.Teeth.Contains(gap.CogTeeth))
        {
            Tell($"{path}.cog", Texts.Get("check.noCog", gap.CogTeeth));
        }
        if (!(gap.ValueMm is > 0 and <= MostGapMm))
        {
            Tell($"{path}.value", Texts.Get("check.gap", gap.ValueMm, MostGapMm));
        }
        if (!(gap.ToleranceMm > 0 && gap.ToleranceMm <= gap.ValueMm))
        {
            Tell($"{path}.tolerance", Texts.Get("check.tolerance", gap.ToleranceMm));
        }

        void Tell(string field, string message) =>
            problems.Error(leaves.NearestPlace(field), field, message);
    }

    private static void CheckTorques(Leaves leaves, ProblemList problems)
    {
        foreach (var fastener in Fasteners.All)
        {
            var path = $"work.torques.{fastener}";
            if (!leaves.HasGroup(path))
            {
                continue;
            }
            var value = leaves.NumberOrNull(path + ".value");
            var lower = leaves.NumberOrNull(path + ".lower");
            var upper = leaves.NumberOrNull(path + ".upper");
            var isRange = lower is not null && upper is not null && value is null;
            var isValue = value is not null && lower is null && upper is null;
            if (!isRange && !isValue)
            {
                problems.Error(leaves.NearestPlace(path), path, Texts.Get("check.torqueForm"));
                continue;
            }
            foreach (var name in (string[])["value", "lower", "upper"])
            {
                var field = $"{path}.{name}";
                if (
                    leaves.NumberOrNull(field) is { } torque
                    && torque is not (> 0 and <= MostTorqueNm)
                )
                {
                    problems.Error(
                        leaves.NearestPlace(field),
                        field,
                        Texts.Get("check.torque", torque, MostTorqueNm)
                    );
                }
            }
            if (lower > upper)
            {
                problems.Error(
                    leaves.NearestPlace(path + ".upper"),
                    path + ".upper",
                    Texts.Get("check.torqueOrder")
                );
            }
        }
    }
}
