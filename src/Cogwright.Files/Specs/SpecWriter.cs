using System.Text;
using Cogwright.Drivetrain;
using Cogwright.Files.Classes;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>
/// Writes a spec as YAML that reads back to the same spec. An assumed value never turns into a measured one: it is
/// left to its class or to common practice, and stands as a comment; so does a value that a part gives, which stays the part's.
/// </summary>
public static class SpecWriter
{
    /// <summary>The YAML of that spec, in the order of the field table.</summary>
    public static string Write(SpecFile spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var leaves = SpecLeaves.Of(spec);
        var left = new LeftOut(
            spec.Drivetrain.Assumptions.ToDictionary(a => a.Path, StringComparer.Ordinal),
            spec.FromParts.ToDictionary(given => given.Path, StringComparer.Ordinal),
            new([.. spec.Parts.Parts, .. spec.Parts.Adapters])
        );
        var (text, lost) = TryWrite(leaves, left);
        // Common practice took a hub spacing that the spec no longer holds: find the one that gives the same again.
        foreach (var hub in CommonPractice.HubSpacings)
        {
            if (lost.Count == 0)
            {
                return text;
            }
            leaves.Set("cogs.hubSpacing", hub, new NumberChoiceShape(CommonPractice.HubSpacings));
            var (withHub, stillLost) = TryWrite(leaves, left);
            if (stillLost.Count == 0)
            {
                return withHub;
            }
            leaves.Remove("cogs.hubSpacing");
        }
        // A value that nothing supplies any more would be lost: it is written out.
        foreach (var path in lost)
        {
            left.WriteOut(path);
        }
        (text, lost) = TryWrite(leaves, left);
        return lost.Count == 0
            ? text
            : Write(
                leaves,
                left with
                {
                    Assumed = new(StringComparer.Ordinal),
                    FromParts = new(StringComparer.Ordinal),
                }
            );
    }

    /// <summary>The text, and the paths whose values would not come back from it.</summary>
    private static (string Text, List<string> Lost) TryWrite(Leaves leaves, LeftOut left)
    {
        var text = Write(leaves, left);
        var back = SpecReader.Read(text, "", left.Library).Spec;
        var lost = back is null
            ? left.Assumed.Keys.Concat(left.FromParts.Keys).ToList()
            : SpecLeaves.Differences(leaves, SpecLeaves.Of(back)).ToList();
        lost.Remove("cogs.hubSpacing");
        return (text, lost);
    }

    private static string Write(Leaves leaves, LeftOut left) =>
        new YamlText(leaves, left, ClassesOf(left)).Write();

    /// <summary>The class of each group that any of its values was taken from, unless a part or the class around it names it.</summary>
    private static Dictionary<string, string> ClassesOf(LeftOut left)
    {
        var origins = left.Assumed.Values.Select(a => a.From).ToHashSet(StringComparer.Ordinal);
        var classes = Enum.GetValues<ClassKind>()
            .SelectMany(kind => ClassLibrary.Names(kind).Select(name => (kind, name)))
            .Where(c => origins.Contains(ClassLibrary.Label(c.kind, c.name)))
            .GroupBy(c => ClassLibrary.GroupPath(c.kind), c => c.name)
            .ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        foreach (var group in classes.Keys.ToList())
        {
            if (left.FromParts.ContainsKey($"{group}.class"))
            {
                classes.Remove(group);
            }
        }
        const string derailleur = "rearDerailleur.class";
        var cage = ClassLibrary.GroupPath(ClassKind.Cage);
        if (
            left.FromParts.TryGetValue(derailleur, out var named)
            && classes.GetValueOrDefault(cage) is { } ofCage
            && ClassLibrary.Names(ClassKind.RearDerailleur).Contains(named.Value)
            && ClassLibrary.Values(ClassKind.RearDerailleur, named.Value).Text("cage.class")
                == ofCage
        )
        {
            classes.Remove(cage);
        }
        return classes;
    }

    /// <summary>What is not written out but left to classes, common practice and parts.</summary>
    private sealed record LeftOut(
        Dictionary<string, Assumption> Assumed,
        Dictionary<string, PartSupplied> FromParts,
        PartLibrary Library
    )
    {
        /// <summary>Leaves a value out no longer; the entries of a list stand in the file together or not at all.</summary>
        internal void WriteOut(string path)
        {
            Assumed.Remove(path);
            FromParts.Remove(path);
            var open = path.IndexOf('[', StringComparison.Ordinal);
            if (open > 0)
            {
                foreach (
                    var entry in FromParts
                        .Keys.Where(key =>
                            key.StartsWith(path[..(open + 1)], StringComparison.Ordinal)
                        )
                        .ToList()
                )
                {
                    FromParts.Remove(entry);
                }
            }
        }

        /// <summary>The comment that stands in the place of a value, or null when it is written out.</summary>
        internal string? Comment(string path) =>
            Assumed.TryGetValue(path, out var assumed)
                ? Texts.Get("write.assumed", path, assumed.Value, assumed.From)
            : FromParts.TryGetValue(path, out var given)
                ? Texts.Get("write.fromPart", path, given.Value, given.PartId)
            : null;
    }

    /// <summary>Walks the field table and writes what there is.</summary>
    private sealed class YamlText(Leaves leaves, LeftOut left, Dictionary<string, string> classes)
    {
        private readonly StringBuilder text = new();

        internal string Write()
        {
            WriteGroup(SpecFields.Spec, "", "", "");
            return text.ToString();
        }

        /// <param name="group">The group.</param>
        /// <param name="path">Its path.</param>
        /// <param name="indent">Blanks before each line.</param>
        /// <param name="first">What stands before the first line instead, such as the dash of a list.</param>
        private void WriteGroup(GroupShape group, string path, string indent, string first)
        {
            var before = first.Length > 0 ? first : indent;
            foreach (var field in group.Fields)
            {
                var inner = path.Length == 0 ? field.Name : $"{path}.{field.Name}";
                var start = text.Length;
                WriteField(field, inner, before, indent);
                before = text.Length > start ? indent : before;
            }
        }

        private void WriteField(Field field, string path, string before, string indent)
        {
            switch (field.Shape)
            {
                case GroupShape { Short: { } only }
                    when IsOnly(path, only) && left.Comment($"{path}.{only}") is null:
                    text.Append(before)
                        .Append(field.Name)
                        .Append(": ")
                        .Append(ShortValue(path, only))
                        .Append('\n');
                    break;
                case GroupShape group when HasContent(path):
                    WriteNamedGroup(group, field.Name, path, before, indent);
                    break;
                case ListShape given when leaves.Count(path) > 0 && IsOfParts(path, given):
                    foreach (
                        var entry in left
                            .FromParts.Keys.Where(key =>
                                key.StartsWith(path + "[", StringComparison.Ordinal)
                            )
                            .Order(StringComparer.Ordinal)
                    )
                    {
                        text.Append(indent).Append("# ").Append(left.Comment(entry)).Append('\n');
                    }
                    break;
                case ListShape list when leaves.Count(path) > 0:
                    text.Append(before).Append(field.Name).Append(":\n");
                    var item = list.Item as GroupShape ?? GearShape.Group;
                    for (var i = 0; i < leaves.Count(path); i++)
                    {
                        WriteGroup(item, $"{path}[{i}]", indent + "    ", indent + "  - ");
                    }
                    break;
                case ChoiceShape when field.Name == "class":
                    var group0 = path[..^".class".Length];
                    if (classes.TryGetValue(group0, out var name))
                    {
                        text.Append(before).Append("class: ").Append(name).Append('\n');
                    }
                    break;
                default:
                    WriteLeaf(field, path, before);
                    break;
            }
        }

        private void WriteNamedGroup(
            GroupShape group,
            string name,
            string path,
            string before,
            string indent
        )
        {
            var start = text.Length;
            text.Append(before).Append(name).Append(":\n");
            var inside = text.Length;
            WriteGroup(group, path, indent + "  ", "");
            var lines = text.ToString(inside, text.Length - inside).Split('\n');
            if (lines.All(l => l.Length == 0 || l.AsSpan().TrimStart().StartsWith("#")))
            {
                // A name with nothing but comments below it would read as empty.
                text.Length = start;
                foreach (var line in lines.Where(l => l.Length > 0))
                {
                    text.Append(indent).Append(line.AsSpan().TrimStart()).Append('\n');
                }
            }
        }

        /// <summary>Whether the group holds nothing but the field that a single value stands for.</summary>
        private bool IsOnly(string path, string name) =>
            leaves.Has($"{path}.{name}")
            && leaves.All.Count(l => l.Key.StartsWith(path + ".", StringComparison.Ordinal)) == 1;

        private string ShortValue(string path, string name)
        {
            var leaf = leaves.Find($"{path}.{name}")!;
            return ValueText.ForFile(leaf.Value, leaf.Shape);
        }

        private bool HasContent(string path) =>
            classes.Keys.Any(c => c == path || c.StartsWith(path + ".", StringComparison.Ordinal))
            || leaves.HasGroup(path);

        /// <summary>Whether parts give the whole list: of each entry what it cannot be without.</summary>
        private bool IsOfParts(string path, ListShape list)
        {
            var item = list.Item as GroupShape ?? GearShape.Group;
            return item.Fields.FirstOrDefault(f => f.Need == Need.Required) is { } needed
                && Enumerable
                    .Range(0, leaves.Count(path))
                    .All(i => left.FromParts.ContainsKey($"{path}[{i}].{needed.Name}"));
        }

        private void WriteLeaf(Field field, string path, string before)
        {
            if (leaves.Find(path) is not { } leaf)
            {
                return;
            }
            if (left.Comment(path) is { } comment)
            {
                // The comment may not take the place of a list's dash; it stands on a line of its own.
                if (before.TrimStart().Length == 0)
                {
                    text.Append(before).Append("# ").Append(comment).Append('\n');
                }
                return;
            }
            text.Append(before)
                .Append(field.Name)
                .Append(": ")
                .Append(ValueText.ForFile(leaf.Value, leaf.Shape))
                .Append('\n');
        }
    }
}
