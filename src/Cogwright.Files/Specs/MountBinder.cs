using Cogwright.Drivetrain;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>Builds the mount on the axle and the sense of the springs, and takes them apart again.</summary>
internal static class MountBinder
{
    private const string Path = "rearDerailleur.coaxial";

    /// <summary>The derailleur with what the file says of its mount.</summary>
    internal static RearDerailleur Bind(Leaves leaves, RearDerailleur derailleur) =>
        derailleur with
        {
            Coaxial = leaves.HasGroup(Path)
                ? new()
                {
                    SetUpCogTeeth = leaves.Whole($"{Path}.setUpCog"),
                    SetUpRingTeeth = leaves.WholeOrNull($"{Path}.setUpRing"),
                    CageAtSetUpRad = leaves.Number($"{Path}.cageAtSetUp"),
                    BodyRange =
                        leaves.NumberOrNull($"{Path}.bodyLeast") is { } least
                        && leaves.NumberOrNull($"{Path}.bodyMost") is { } most
                            ? new(least, most)
                            : null,
                }
                : null,
            RestsInboard = leaves.Flag("rearDerailleur.restsInboard") ?? false,
        };

    /// <summary>A range has two ends: one alone says nothing.</summary>
    internal static void Check(Leaves leaves, ProblemList problems)
    {
        var (least, most) = ($"{Path}.bodyLeast", $"{Path}.bodyMost");
        if (leaves.Has(least) != leaves.Has(most))
        {
            var given = leaves.Has(least) ? least : most;
            problems.Error(leaves.NearestPlace(given), given, Texts.Get("check.bodyRange"));
        }
    }

    internal static void Set(RearDerailleur derailleur, Action<string, object?> set)
    {
        if (derailleur.Coaxial is { } mount)
        {
            set($"{Path}.setUpCog", mount.SetUpCogTeeth);
            set($"{Path}.setUpRing", mount.SetUpRingTeeth);
            set($"{Path}.cageAtSetUp", mount.CageAtSetUpRad);
            set($"{Path}.bodyLeast", mount.BodyRange?.LeastRad);
            set($"{Path}.bodyMost", mount.BodyRange?.MostRad);
        }
        if (derailleur.RestsInboard)
        {
            set("rearDerailleur.restsInboard", true);
        }
    }
}
