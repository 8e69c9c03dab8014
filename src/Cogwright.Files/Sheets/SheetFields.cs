using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Drivetrain.Bench;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>
/// What an editor shows of a sheet: every field that applies to it, in groups, with its value and where that comes from. Works
/// for a sheet with errors too: what can be read of it stands, the rest has no value.
/// </summary>
public sealed class SheetFields
{
    private readonly SpecSheet sheet;
    private readonly Leaves leaves;
    private readonly ImmutableDictionary<string, string> fitted;
    private readonly SheetScope scope;

    private readonly PartLibrary? parts;

    private SheetFields(
        SpecSheet sheet,
        IEnumerable<FittedValue> fitted,
        bool isWhole,
        PartLibrary? parts
    )
    {
        this.sheet = sheet;
        this.parts = parts;
        this.fitted = fitted.ToImmutableDictionary(f => f.Path, f => f.Value);
        leaves = new();
        var unheard = new ProblemList("");
        if (DocumentReader.Read(sheet.ToYaml(), unheard) is { } top)
        {
            SpecReader.ReadInto(leaves, top, parts, unheard);
        }
        scope = new(sheet, leaves, isWhole);
        Groups = [.. Gather()];
    }

    /// <summary>The groups, in the order of work: from the frame to what was measured.</summary>
    public ImmutableArray<SpecFieldGroup> Groups { get; }

    /// <summary>The fields of a sheet.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="fitted">Values that the bench found from measurements.</param>
    /// <param name="isWhole">Whether fields that do not apply to this bike are there too.</param>
    /// <param name="parts">The library in which the spec's parts are looked up; none when null.</param>
    public static SheetFields Of(
        SpecSheet sheet,
        IEnumerable<FittedValue>? fitted = null,
        bool isWhole = false,
        PartLibrary? parts = null
    )
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return new(sheet, fitted ?? [], isWhole, parts);
    }

    /// <summary>One field by its path, or null when the table has none there.</summary>
    public SpecField? Find(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var table = SpecOrder.TablePath(path);
        foreach (var row in FieldTable.Walk(SpecFields.Spec))
        {
            if (row.Path == table && row.Field.Shape is not (GroupShape or ListShape))
            {
                return Make(path, row.Field, LabelOf(table));
            }
        }
        return null;
    }

    /// <summary>The fields of an entry of a list, whether or not it is there yet.</summary>
    /// <param name="listPath">The path of the list.</param>
    /// <param name="index">Which entry, counted from 0.</param>
    /// <exception cref="ArgumentException">There is no list at that path.</exception>
    public ImmutableArray<SpecField> Entry(string listPath, int index)
    {
        ArgumentException.ThrowIfNullOrEmpty(listPath);
        var table = SpecOrder.TablePath(listPath);
        var list =
            FieldTable.Walk(SpecFields.Spec).FirstOrDefault(row => row.Path == table)?.Field.Shape
                as ListShape
            ?? throw new ArgumentException(listPath, nameof(listPath));
        return EntryOf(list, listPath, index);
    }

    /// <summary>What a field at a path is called, with the entry it belongs to: "ring 2: teeth".</summary>
    public static string LabelAt(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var table = SpecOrder.TablePath(path);
        var open = path.IndexOf('[', StringComparison.Ordinal);
        if (open < 0 || !table.Contains("[].", StringComparison.Ordinal))
        {
            return LabelOf(table);
        }
        var list = path[..open];
        var number = int.Parse(
            path.AsSpan(open + 1, path.IndexOf(']', open) - open - 1),
            CultureInfo.InvariantCulture
        );
        return Texts.Get("sheet.entryField", EntryLabelOf(list), number + 1, LabelOf(table));
    }

    private IEnumerable<SpecFieldGroup> Gather()
    {
        var spec = SpecFields.Spec;
        yield return new(
            "",
            Texts.Get("sheet.bike"),
            "",
            [Make("name", spec.Find("name")!, LabelOf("name"))],
            []
        );
        foreach (var field in spec.Fields)
        {
            foreach (var group in GroupsOf(field.Name, field.Shape))
            {
                yield return group;
            }
        }
    }

    private IEnumerable<SpecFieldGroup> GroupsOf(string path, Shape shape)
    {
        var fields = ImmutableArray.CreateBuilder<SpecField>();
        var lists = ImmutableArray.CreateBuilder<SpecFieldList>();
        var apart = new List<(string Path, Shape Shape)>();
        switch (shape)
        {
            case GroupShape group when scope.Applies(path):
                Collect(group, path, fields, lists, apart);
                break;
            case ListShape list when scope.Applies(path):
                lists.Add(ListOf(list, path));
                break;
            default:
                yield break;
        }
        if (fields.Count + lists.Count > 0)
        {
            yield return new(
                path,
                LabelOf(path),
                FieldTable.About(path),
                fields.ToImmutable(),
                lists.ToImmutable()
            );
        }
        foreach (var inner in apart)
        {
            foreach (var group in GroupsOf(inner.Path, inner.Shape))
            {
                yield return group;
            }
        }
    }

    private void Collect(
        GroupShape group,
        string path,
        ImmutableArray<SpecField>.Builder fields,
        ImmutableArray<SpecFieldList>.Builder lists,
        List<(string Path, Shape Shape)> apart
    )
    {
        foreach (var field in group.Fields)
        {
            var inner = $"{path}.{field.Name}";
            if (!scope.Applies(inner))
            {
                continue;
            }
            switch (field.Shape)
            {
                case GroupShape nested when SheetScope.StandsApart(inner):
                    apart.Add((inner, nested));
                    break;
                case GroupShape nested:
                    Collect(nested, inner, fields, lists, apart);
                    break;
                case ListShape list:
                    lists.Add(ListOf(list, inner));
                    break;
                default:
                    fields.Add(Make(inner, field, LabelOf(inner)));
                    break;
            }
        }
    }

    private SpecFieldList ListOf(ListShape list, string path) =>
        new(
            path,
            LabelOf(path),
            EntryLabelOf(path),
            FieldTable.About(path),
            list.Most,
            [.. Enumerable.Range(0, sheet.CountOf(path)).Select(i => EntryOf(list, path, i))]
        );

    private ImmutableArray<SpecField> EntryOf(ListShape list, string path, int index)
    {
        var group = list.Item is GearShape ? GearShape.Group : (GroupShape)list.Item;
        var fields = ImmutableArray.CreateBuilder<SpecField>();
        Collect(
            group,
            string.Create(CultureInfo.InvariantCulture, $"{path}[{index}]"),
            fields,
            ImmutableArray.CreateBuilder<SpecFieldList>(),
            []
        );
        return fields.ToImmutable();
    }

    /// <summary>
    /// The label of a field; one inside a group that does not stand apart is named with that group, and the main value of a
    /// group is named as the group alone.
    /// </summary>
    private static string LabelOf(string path)
    {
        var table = SpecOrder.TablePath(path);
        var own = FieldTable.LabelOrNull(table) ?? table[(table.LastIndexOf('.') + 1)..];
        var dot = table.LastIndexOf('.');
        if (dot < 0)
        {
            return own;
        }
        var parent = table[..dot];
        if (
            parent.EndsWith("[]", StringComparison.Ordinal)
            || !parent.Contains('.', StringComparison.Ordinal)
            || SheetScope.StandsApart(parent)
            || SheetScope.StandsApart(table)
        )
        {
            return own;
        }
        var outer = LabelOf(parent);
        return SheetScope.IsMainValue(table) ? outer : $"{outer}: {own}";
    }

    private static string EntryLabelOf(string path) =>
        Texts.Find("entry." + SpecOrder.TablePath(path)) ?? LabelOf(path);

    private SpecField Make(string path, Field field, string label)
    {
        // An emptied field of a list's entry stands in the sheet, with nothing in it.
        var text = sheet[path] is { Length: > 0 } written ? written : null;
        var leaf = leaves.Find(path);
        var shape = field.Shape;
        var (origin, from) = OriginOf(path, text, leaf);
        return new()
        {
            Path = path,
            TablePath = SpecOrder.TablePath(path),
            Label = label,
            About = FieldTable.About(SpecOrder.TablePath(path)),
            Kind = FieldTyping.KindOf(shape),
            Unit = FieldTyping.UnitOf(shape),
            Choices = shape switch
            {
                ChoiceShape choice => [.. choice.Names()],
                NumberChoiceShape numbers =>
                [
                    .. numbers.Numbers.Select(n => n.ToString(CultureInfo.InvariantCulture)),
                ],
                _ => [],
            },
            Need = (FieldNeed)field.Need,
            Range = FieldRanges.Of(SpecOrder.TablePath(path)),
            Text = text,
            InForce =
                fitted.GetValueOrDefault(path)
                ?? (leaf is null ? null : FieldTyping.InForce(leaf, text)),
            Origin = origin,
            From = from,
        };
    }

    private (ValueOrigin Origin, string From) OriginOf(string path, string? text, Leaf? leaf)
    {
        if (fitted.ContainsKey(path))
        {
            return (ValueOrigin.Measured, "");
        }
        if (text is not null)
        {
            var isReading =
                path.StartsWith(MeasuredFields.Group + ".", StringComparison.Ordinal)
                && path.EndsWith(".value", StringComparison.Ordinal);
            return (isReading ? ValueOrigin.Measured : ValueOrigin.Spec, "");
        }
        return leaf switch
        {
            null => (ValueOrigin.None, ""),
            { PartId: { } id } => (ValueOrigin.Part, parts?.Find(id)?.Name ?? id),
            { From: null } => (ValueOrigin.Spec, ""),
            { From: { } from } when from == Texts.Get("class.practice") => (
                ValueOrigin.CommonPractice,
                ""
            ),
            { From: { } from } => (ValueOrigin.Class, from),
        };
    }
}
