using System.Text;
using Cogwright.Drivetrain;
using Cogwright.Files.Classes;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>
/// Writes a spec as YAML that reads back to the same spec. An assumed value never turns into a measured one: it is
/// left to its class or to common practice, and stands as a comment.
/// </summary>
public static class SpecWriter
{
    /// <summary>The YAML of that spec, in the order of the field table.</summary>
    public static string Write(SpecFile spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var leaves = SpecLeaves.Of(spec);
        var assumed = spec.Drivetrain.Assumptions.ToDictionary(a => a.Path, StringComparer.Ordinal);
        var (text, lost) = TryWrite(leaves, assumed);
        // Common practice took a hub spacing that the spec no longer holds: find the one that gives the same again.
        foreach (var hub in CommonPractice.HubSpacings)
        {
            if (lost.Count == 0)
            {
                return text;
            }
            leaves.Set("cogs.hubSpacing", hub, new NumberChoiceShape(CommonPractice.HubSpacings));
            var (withHub, stillLost) = TryWrite(leaves, assumed);
            if (stillLost.Count == 0)
            {
                return withHub;
            }
            leaves.Remove("cogs.hubSpacing");
        }
        // An assumed value that nothing supplies any more would be lost: it is written out.
        foreach (var path in lost)
        {
            assumed.Remove(path);
        }
        (text, lost) = TryWrite(leaves, assumed);
        return lost.Count == 0 ? text : Write(leaves, new(StringComparer.Ordinal));
    }

    /// <summary>The text, and the paths whose values would not come back from it.</summary>
    private static (string Text, List<string> Lost) TryWrite(
        Leaves leaves,
        Dictionary<string, Assumption> assumed
    )
    {
        var text = Write(leaves, assumed);
        var back = SpecReader.Read(text, "").Spec;
        var lost = back is null
            ? assumed.Keys.ToList()
            : SpecLeaves.Differences(leaves, SpecLeaves.Of(back)).ToList();
        lost.Remove("cogs.hubSpacing");
        return (text, lost);
    }

    private static string Write(Leaves leaves, Dictionary<string, Assumption> assumed) =>
        new YamlText(leaves, assumed, ClassesOf(assumed.Values)).Write();

    /// <summary>The class of each group that any of its values was taken from.</summary>
    private static Dictionary<string, string> ClassesOf(IEnumerable<Assumption> assumed)
    {
        var origins = assumed.Select(a => a.From).ToHashSet(StringComparer.Ordinal);
        return Enum.GetValues<ClassKind>()
            .SelectMany(kind => ClassLibrary.Names(kind).Select(name => (kind, name)))
            .Where(c => origins.Contains(ClassLibrary.Label(c.kind, c.name)))
            .GroupBy(c => ClassLibrary.GroupPath(c.kind), c => c.name)
            .ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
    }

    /// <summary>Walks the field table and writes what there is.</summary>
    private sealed class YamlText(
        Leaves leaves,
        Dictionary<string, Assumption> assumed,
        Dictionary<string, string> classes
    )
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
                case GroupShape { Short: { } only } when IsOnly(path, only):
                    text.Append(before)
                        .Append(field.Name)
                        .Append(": ")
                        .Append(ShortValue(path, only))
                        .Append('\n');
                    break;
                case GroupShape group when HasContent(path):
                    WriteNamedGroup(group, field.Name, path, before, indent);
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

        private void WriteLeaf(Field field, string path, string before)
        {
            if (leaves.Find(path) is not { } leaf)
            {
                return;
            }
            if (assumed.TryGetValue(path, out var assumption))
            {
                // The comment may not take the place of a list's dash; it stands on a line of its own.
                if (before.TrimStart().Length == 0)
                {
                    text.Append(before)
                        .Append("# ")
                        .Append(Texts.Get("write.assumed", path, assumption.Value, assumption.From))
                        .Append('\n');
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
