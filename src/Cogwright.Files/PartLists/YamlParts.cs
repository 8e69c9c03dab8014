using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>The entries of a parts file in YAML.</summary>
internal sealed class YamlParts : IPartSource
{
    internal const string List = "parts";
    internal const string SpecGroup = "spec";

    /// <summary>The version of the format that this program writes, and the newest that it reads.</summary>
    internal const int Format = 1;

    private readonly ProblemList problems;
    private readonly DocumentReader? document;
    private readonly List<PartCell> cells = [];
    private bool isAny;

    internal YamlParts(string text, ProblemList problems)
    {
        this.problems = problems;
        if (TextIntake.FindBinary(text) is { } binary)
        {
            problems.Error(
                TextIntake.PlaceAt(text, binary),
                "",
                Texts.Get("file.binary", (int)text[binary])
            );
            return;
        }
        document = DocumentReader.Items(text, List, problems);
    }

    public IReadOnlyList<PartCell> Cells => cells;

    public Place Place { get; private set; } = Place.Start;

    public bool IsUnusable { get; private set; }

    public IEnumerable<string>? Columns => null;

    public bool Next()
    {
        if (document?.NextItem() is not { } item)
        {
            CheckBeside();
            return false;
        }
        isAny = true;
        Place = item.Place;
        cells.Clear();
        if (item is not MappingNode mapping)
        {
            problems.Error(item.Place, List, Texts.Get("parts.notEntry"));
            return true;
        }
        foreach (var entry in mapping.Entries)
        {
            if (entry.Name == SpecGroup)
            {
                TakeSpec(entry);
            }
            else
            {
                Take(entry.Name, entry.Value, entry.KeyPlace);
            }
        }
        return true;
    }

    public void Dispose() { }

    private void Take(string name, Node value, Place keyPlace)
    {
        switch (value)
        {
            case ScalarNode { IsEmpty: true }:
                break;
            case ScalarNode scalar:
                cells.Add(new(name, scalar.Text, null, scalar.Place));
                break;
            case SequenceNode sequence when sequence.Items.All(i => i is ScalarNode):
                var items = sequence.Items.Select(i => ((ScalarNode)i).Text).ToList();
                cells.Add(new(name, $"[{string.Join(", ", items)}]", items, sequence.Place));
                break;
            default:
                problems.Error(
                    keyPlace,
                    Quoting.Short(name),
                    Texts.Get("parts.notValue", Quoting.Short(name))
                );
                break;
        }
    }

    /// <summary>Paths may be written out or nested, whichever reads better.</summary>
    private void TakeSpec(Entry spec)
    {
        if (spec.Value is not MappingNode mapping)
        {
            if (spec.Value is not ScalarNode { IsEmpty: true })
            {
                problems.Error(spec.Value.Place, SpecGroup, Texts.Get("parts.notSpec"));
            }
            return;
        }
        foreach (var entry in mapping.Entries)
        {
            var found = SpecSheet.NoValues.ToBuilder();
            SheetIntake.Take(entry.Value, PartPaths.ShapeAt(entry.Name), entry.Name, found);
            foreach (var (path, text) in found)
            {
                cells.Add(new($"{SpecGroup}.{path}", text, null, entry.Value.Place));
            }
        }
    }

    private void CheckBeside()
    {
        foreach (var entry in document?.Beside ?? [])
        {
            switch (entry.Name)
            {
                case "format"
                    when entry.Value is ScalarNode scalar
                        && ScalarReader.TryWhole(scalar.Text, out var format)
                        && format == Format:
                    break;
                case "format":
                    IsUnusable = true;
                    problems.Error(entry.Value.Place, "format", Texts.Get("parts.format", Format));
                    break;
                case List when entry.Value is ScalarNode { IsEmpty: true }:
                    isAny = true;
                    break;
                case List:
                    problems.Error(entry.Value.Place, List, Texts.Get("parts.notList"));
                    isAny = true;
                    break;
                default:
                    problems.Error(
                        entry.KeyPlace,
                        Quoting.Short(entry.Name),
                        Texts.Get("parts.unknownTop", Quoting.Short(entry.Name))
                    );
                    break;
            }
        }
        if (!isAny && !problems.AnyError && document?.HasList == false)
        {
            problems.Error(Place.Start, List, Texts.Get("parts.noList"));
        }
    }
}
