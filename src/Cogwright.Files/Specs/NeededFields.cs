using Cogwright.Files.Classes;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>Tells which fields are missing after the classes and common practice have filled in what they can.</summary>
internal static class NeededFields
{
    internal static void Check(Leaves leaves, ProblemList problems)
    {
        CheckGroup(leaves, problems, SpecFields.Spec, "", null);
        CheckMechanism(leaves, problems);
        for (var i = 0; i < leaves.Count("rings"); i++)
        {
            CheckFilled(leaves, problems, $"rings[{i}].lateral");
        }
        if (leaves.HasGroup("cogs"))
        {
            CheckFilled(leaves, problems, "cogs.spacing");
        }
        RearEndBinder.CheckNeeded(leaves, problems);
    }

    private static void CheckEntries(
        Leaves leaves,
        ProblemList problems,
        ListShape list,
        string path,
        ChoiceShape? classes
    )
    {
        var item = list.Item as GroupShape ?? GearShape.Group;
        for (var i = 0; i < leaves.Count(path); i++)
        {
            var entry = $"{path}[{i}]";
            if (!leaves.HasFailed(entry))
            {
                CheckGroup(leaves, problems, item, entry, classes);
            }
        }
    }

    /// <summary>A derailleur that is named as a part but described by nobody would silently not be there.</summary>
    private static void CheckMechanism(Leaves leaves, ProblemList problems)
    {
        var path = PartsFields.PathOf(PartKind.RearDerailleur);
        if (leaves.Has(path) && !leaves.HasFailed(path) && !leaves.HasGroup("rearDerailleur"))
        {
            leaves.SetFailed(path);
            problems.Error(
                leaves.NearestPlace(path),
                path,
                Texts.Get(
                    "part.noMechanism",
                    leaves.Text(path),
                    string.Join(", ", ClassLibrary.Names(ClassKind.RearDerailleur))
                )
            );
        }
    }

    private static void CheckGroup(
        Leaves leaves,
        ProblemList problems,
        GroupShape group,
        string path,
        ChoiceShape? classes
    )
    {
        var ownClass = group.Find("class")?.Shape as ChoiceShape;
        if (ownClass is not null && leaves.HasFailed($"{path}.class"))
        {
            // Once the class is written right, it may supply everything.
            return;
        }
        classes = ownClass ?? classes;
        foreach (var field in group.Fields)
        {
            var inner = path.Length == 0 ? field.Name : $"{path}.{field.Name}";
            if (leaves.HasFailed(inner))
            {
                continue;
            }
            if (field.Shape is ListShape list)
            {
                CheckEntries(leaves, problems, list, inner, classes);
            }
            if (field.Shape is GroupShape nested && leaves.HasGroup(inner))
            {
                CheckGroup(leaves, problems, nested, inner, classes);
            }
            else if (
                field.Need == Need.Required
                && !leaves.Has(inner)
                && leaves.Count(inner) == 0
                && !leaves.HasGroup(inner)
            )
            {
                // What the file lacks has been told; this is a group that a part gives in pieces.
                leaves.SetFailed(inner);
                problems.Error(
                    leaves.NearestPlace(path),
                    inner,
                    Texts.Get("value.missing", field.Name, Expectations.Of(field.Shape))
                );
            }
            else if (
                field.Need == Need.OrPart
                && !leaves.Has(inner)
                && leaves.Count(inner) == 0
                && !leaves.HasGroup(inner)
            )
            {
                leaves.SetFailed(inner);
                if (PartKinds.All.Any(kind => leaves.HasFailed(PartsFields.PathOf(kind))))
                {
                    // The part that could not be found may give it.
                    continue;
                }
                problems.Error(
                    leaves.NearestPlace(path),
                    inner,
                    Texts.Get("value.missingOrPart", field.Name, Expectations.Of(field.Shape))
                );
            }
            else if (field.Need == Need.OrClass && !leaves.Has(inner))
            {
                leaves.SetFailed(inner);
                problems.Error(
                    leaves.NearestPlace(path),
                    inner,
                    Texts.Get(
                        "value.missingOrClass",
                        field.Name,
                        Expectations.Of(field.Shape),
                        classes is null ? "" : string.Join(", ", classes.Names())
                    )
                );
            }
        }
    }

    /// <summary>A position that common practice could not supply, because no bike is made that way.</summary>
    private static void CheckFilled(Leaves leaves, ProblemList problems, string path)
    {
        var parent = path[..path.LastIndexOf('.')];
        if (
            leaves.Has(path)
            || leaves.HasFailed(path)
            || leaves.HasFailed("cogs.teeth")
            || leaves.HasFailed(parent)
        )
        {
            return;
        }
        leaves.SetFailed(path);
        problems.Error(
            leaves.NearestPlace(parent),
            path,
            Texts.Get("value.missingNoPractice", path[(parent.Length + 1)..])
        );
    }
}
