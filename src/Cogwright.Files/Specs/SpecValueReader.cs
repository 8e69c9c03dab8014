using System.Globalization;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>Reads values that a part gives to a spec, each a path with its text, through the field table of specs.</summary>
internal sealed class SpecValueReader(Leaves leaves)
{
    /// <summary>Most entries of a list that a part may fill.</summary>
    private const int MostListed = 200;

    /// <summary>Reads one value into the leaves.</summary>
    /// <returns>Null, or what is wrong with it.</returns>
    internal string? Read(string path, string text)
    {
        if (Refused(path) is { } refused)
        {
            return refused;
        }
        var problems = new ProblemList("");
        if (NodeOf(text, problems) is { } node)
        {
            new FieldReader(problems, leaves, SpecFields.Spec).ReadOne(
                node,
                PartPaths.ShapeAt(path)!,
                path
            );
        }
        if (problems.AnyError)
        {
            return problems.Sorted()[0].Message;
        }
        for (
            var open = path.IndexOf('[', StringComparison.Ordinal);
            open >= 0;
            open = path.IndexOf('[', open + 1)
        )
        {
            var list = path[..open];
            leaves.SetCount(list, Math.Max(leaves.Count(list), IndexAt(path, open) + 1));
        }
        return null;
    }

    /// <summary>Why a part cannot give that field, or null when it can.</summary>
    internal static string? Refused(string path)
    {
        var table = SpecOrder.TablePath(path);
        if (
            table is "format" or "name"
            || table == PartsFields.Group
            || table.StartsWith(PartsFields.Group + ".", StringComparison.Ordinal)
            || table.StartsWith(MeasuredFields.Group, StringComparison.Ordinal)
        )
        {
            return Texts.Get("part.notOfPart", Quoting.Short(path));
        }
        if (PartPaths.ShapeAt(path) is null or GroupShape or ListShape or GearShape or RefusedShape)
        {
            var known = FieldTable
                .Walk(SpecFields.Spec)
                .Where(row => row.Field.Shape is not (GroupShape or ListShape))
                .Select(row => row.Path);
            return NearestName.Find(path, known) is { } near
                ? Texts.Get("field.unknownNear", Quoting.Short(path), near)
                : Texts.Get("part.unknownPath", Quoting.Short(path));
        }
        for (
            var open = path.IndexOf('[', StringComparison.Ordinal);
            open >= 0;
            open = path.IndexOf('[', open + 1)
        )
        {
            // An index has digits, and no more of them than the longest list needs.
            var digits = path.AsSpan(open + 1, path.IndexOf(']', open) - open - 1);
            if (digits.Length is 0 or > 3 || IndexAt(path, open) >= MostListed)
            {
                return Texts.Get("part.unknownPath", Quoting.Short(path));
            }
        }
        return null;
    }

    private static Node? NodeOf(string text, ProblemList problems) =>
        text.StartsWith('[') && text.EndsWith(']')
            ? DocumentReader.Read(text, problems)
            : new ScalarNode(text, false, Place.Start);

    private static int IndexAt(string path, int open) =>
        int.Parse(
            path.AsSpan(open + 1, path.IndexOf(']', open) - open - 1),
            CultureInfo.InvariantCulture
        );
}
