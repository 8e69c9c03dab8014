using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>The outcome of taking a text apart. Immutable.</summary>
/// <param name="Sheet">The sheet, or null when the text is no YAML.</param>
/// <param name="Problems">Why not.</param>
public sealed record SheetReading(SpecSheet? Sheet, ImmutableArray<FileProblem> Problems);

/// <summary>
/// A spec as somebody fills it in: for each path, such as <c>rings[1].teeth</c>, the text that stands there, right or wrong.
/// <see cref="Read"/> takes a file apart, <see cref="With"/> changes one field, <see cref="Check"/> says what the spec is then.
/// Comments of the file are not kept. Immutable.
/// </summary>
public sealed class SpecSheet
{
    private static readonly ImmutableArray<string> Order =
    [
        .. FieldTable.Walk(SpecFields.Spec).Select(row => row.Path),
    ];

    private readonly ImmutableSortedDictionary<string, string> values;

    private SpecSheet(ImmutableSortedDictionary<string, string> values) => this.values = values;

    /// <summary>No values, in the order of their paths.</summary>
    internal static ImmutableSortedDictionary<string, string> NoValues { get; } =
        ImmutableSortedDictionary<string, string>.Empty.WithComparers(StringComparer.Ordinal);

    /// <summary>A sheet on which nothing is written.</summary>
    public static SpecSheet Empty { get; } = new(NoValues);

    /// <summary>The text of every field that has one, by path.</summary>
    public IReadOnlyDictionary<string, string> Values => values;

    /// <summary>The text at a path, or null.</summary>
    public string? this[string path] => values.GetValueOrDefault(path);

    /// <summary>Takes a file apart, whether or not it is a spec that can be used.</summary>
    /// <param name="text">YAML or JSON.</param>
    /// <param name="fileName">What the file is called in messages.</param>
    public static SheetReading Read(string text, string fileName)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        if (
            TextIntake.Check(text, problems) is not { } whole
            || DocumentReader.Read(whole, problems) is not { } top
        )
        {
            return new(null, problems.Sorted());
        }
        if (top is not MappingNode mapping)
        {
            problems.Error(top.Place, "", Texts.Get("sheet.noFields"));
            return new(null, problems.Sorted());
        }
        var found = Empty.values.ToBuilder();
        SheetIntake.Take(mapping, SpecFields.Spec, "", found);
        return new(new(found.ToImmutable()), problems.Sorted());
    }

    /// <summary>The sheet with another text at a path; null or an empty text takes the field out.</summary>
    public SpecSheet With(string path, string? text)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        return string.IsNullOrWhiteSpace(text)
            ? new(values.Remove(path))
            : new(values.SetItem(path, OneLine(text)));
    }

    /// <summary>How many entries a list has.</summary>
    public int CountOf(string listPath)
    {
        ArgumentException.ThrowIfNullOrEmpty(listPath);
        var start = listPath + "[";
        return values
                .Keys.Where(path => path.StartsWith(start, StringComparison.Ordinal))
                .Select(path => IndexAfter(path, start.Length))
                .DefaultIfEmpty(-1)
                .Max() + 1;
    }

    /// <summary>The sheet without one entry of a list; those behind it move up.</summary>
    public SpecSheet Without(string listPath, int index)
    {
        ArgumentException.ThrowIfNullOrEmpty(listPath);
        var start = listPath + "[";
        var left = Empty.values.ToBuilder();
        foreach (var (path, text) in values)
        {
            var at = path.StartsWith(start, StringComparison.Ordinal)
                ? IndexAfter(path, start.Length)
                : -1;
            if (at != index)
            {
                var rest = at > index ? path[path.IndexOf(']', start.Length)..] : "";
                left[
                    at > index
                        ? string.Create(CultureInfo.InvariantCulture, $"{start}{at - 1}{rest}")
                        : path
                ] = text;
            }
        }
        return new(left.ToImmutable());
    }

    /// <summary>What the spec is as it stands, or what is wrong where; each problem names its path as the field.</summary>
    /// <param name="parts">The library in which the spec's parts are looked up; none when null.</param>
    public SpecReading Check(PartLibrary? parts = null) =>
        SpecReader.Read(ToYaml(), this["name"] ?? "", parts);

    /// <summary>The file: fields in the order of the field table.</summary>
    public string ToYaml()
    {
        var top = new Branch();
        foreach (var (path, text) in SheetIntake.Short(values, RankOf))
        {
            var at = top;
            foreach (var step in path.Replace("[", ".[", StringComparison.Ordinal).Split('.'))
            {
                at = at.Into(step);
            }
            at.Text = text;
        }
        var yaml = new StringBuilder();
        top.Write(yaml, "");
        return yaml.ToString();
    }

    private static (int Rank, int Index) RankOf(string path)
    {
        var bare = path;
        var index = 0;
        for (var open = bare.IndexOf('[', StringComparison.Ordinal); open >= 0; )
        {
            var close = bare.IndexOf(']', open);
            index = (index * 1000) + IndexAfter(bare, open + 1);
            bare = string.Concat(bare.AsSpan(0, open), "\0", bare.AsSpan(close + 1));
            open = bare.IndexOf('[', StringComparison.Ordinal);
        }
        var rank = Order.IndexOf(bare.Replace("\0", "[]", StringComparison.Ordinal));
        return (rank < 0 ? int.MaxValue : rank, index);
    }

    private static int IndexAfter(string path, int at) =>
        int.Parse(path.AsSpan(at, path.IndexOf(']', at) - at), CultureInfo.InvariantCulture);

    private static string OneLine(string text) =>
        string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c)).Trim();

    /// <summary>A name of the file with what stands below it.</summary>
    private sealed class Branch
    {
        private readonly List<(string Step, Branch Below)> below = [];

        internal string? Text { get; set; }

        internal Branch Into(string step)
        {
            foreach (var (name, branch) in below)
            {
                if (name == step)
                {
                    return branch;
                }
            }
            var made = new Branch();
            below.Add((step, made));
            return made;
        }

        internal void Write(StringBuilder yaml, string indent)
        {
            foreach (var (step, branch) in below)
            {
                yaml.Append(indent).Append(step).Append(':');
                if (branch.Text is { } text)
                {
                    yaml.Append(' ').Append(Written(text));
                }
                yaml.Append('\n');
                if (branch.Text is null && branch.below.Count > 0)
                {
                    if (branch.below[0].Step.StartsWith('['))
                    {
                        branch.WriteItems(yaml, indent);
                    }
                    else
                    {
                        branch.Write(yaml, indent + "  ");
                    }
                }
            }
        }

        private void WriteItems(StringBuilder yaml, string indent)
        {
            foreach (var (_, item) in below)
            {
                var start = yaml.Length;
                if (item.Text is { } text)
                {
                    yaml.Append(indent).Append("  - ").Append(Written(text)).Append('\n');
                    continue;
                }
                item.Write(yaml, indent + "    ");
                // The dash takes the place of two blanks of the item's first line.
                yaml[start + indent.Length + 2] = '-';
            }
        }

        private static string Written(string text) =>
            IsFlow(text) || IsPlain(text) ? text : ValueText.Quoted(text);

        /// <summary>A list in brackets; anything else that only looks like one would spoil the whole file.</summary>
        private static bool IsFlow(string text) =>
            text.StartsWith('[')
            && text.EndsWith(']')
            && DocumentReader.Read(text, new ProblemList("")) is SequenceNode;

        private static bool IsPlain(string text) =>
            !text.Contains(": ", StringComparison.Ordinal)
                && !text.Contains(" #", StringComparison.Ordinal)
                && !text.EndsWith(':')
                && text[0]
                    is not (
                        '-'
                        or '"'
                        or '\''
                        or '['
                        or ']'
                        or '{'
                        or '}'
                        or '#'
                        or '&'
                        or '*'
                        or '!'
                        or '|'
                        or '>'
                        or '%'
                        or '@'
                        or '`'
                        or ','
                        or '?'
                        or ':'
                    )
            || (
                text.Length > 1 && text[0] == '-' && (char.IsAsciiDigit(text[1]) || text[1] == '.')
            );
    }
}
