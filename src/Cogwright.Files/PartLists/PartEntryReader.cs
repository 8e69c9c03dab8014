using System.Collections.Immutable;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>Makes a part of the named values of one entry, whatever the form of the file, or tells what is wrong with them.</summary>
internal sealed class PartEntryReader(ProblemList problems)
{
    internal const string Id = "id";
    internal const string Kind = "kind";
    internal const string Name = "name";
    internal const string Maker = "maker";
    internal const string Source = "source";
    internal const string InStock = "inStock";
    internal const string SpecPrefix = YamlParts.SpecGroup + ".";

    /// <summary>Longest text of a part (characters).</summary>
    internal const int LongestText = 300;

    /// <summary>Most pieces in stock; more is another column's number.</summary>
    internal const int MostInStock = 1_000_000;

    private readonly Dictionary<string, Place> ids = new(StringComparer.Ordinal);
    private readonly Dictionary<(string Path, string Text), string?> judged = [];

    /// <summary>What every part has.</summary>
    internal static ImmutableArray<string> Needed { get; } = [Id, Kind, Name];

    /// <summary>The names that are no fields of the part's kind.</summary>
    internal static ImmutableArray<string> OfEvery { get; } =
    [Id, Kind, Name, Maker, Source, InStock];

    /// <summary>Why there is no field of that name for any part, or null when there is.</summary>
    internal static string? WhyUnknown(string name)
    {
        if (OfEvery.Contains(name) || PartFields.Find(name) is not null)
        {
            return null;
        }
        if (name.StartsWith(SpecPrefix, StringComparison.Ordinal))
        {
            return SpecValueReader.Refused(name[SpecPrefix.Length..]);
        }
        return NearKnown(name) is { } near
            ? Texts.Get("field.unknownNear", Quoting.Short(name), near)
            : Texts.Get("parts.unknownField", Quoting.Short(name));
    }

    /// <summary>Whether a name that is no field was probably meant for one: it is near one, or begins like a path of a spec.</summary>
    internal static bool IsMeant(string name) =>
        name.StartsWith(SpecPrefix, StringComparison.Ordinal) || NearKnown(name) is not null;

    private static string? NearKnown(string name) =>
        NearestName.Find(name, OfEvery.Concat(PartFields.All.Select(field => field.Name)));

    internal Part? Read(IReadOnlyList<PartCell> cells, Place place)
    {
        var errors = problems.Errors;
        foreach (var needed in Needed)
        {
            if (!cells.Any(cell => cell.Name == needed))
            {
                problems.Error(place, needed, Texts.Get("parts.missing", needed));
            }
        }
        var kind = KindOf(cells);
        var texts = new Dictionary<string, string>(StringComparer.Ordinal);
        int? inStock = null;
        var values = ImmutableDictionary.CreateBuilder<PartField, PartValue>();
        var spec = ImmutableSortedDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        foreach (var cell in cells)
        {
            switch (cell.Name)
            {
                case Kind:
                    break;
                case Id:
                    texts[Id] = IdOf(cell);
                    break;
                case Name or Maker or Source:
                    texts[cell.Name] = TextOf(cell);
                    break;
                case InStock:
                    inStock = StockOf(cell);
                    break;
                default:
                    if (cell.Name.StartsWith(SpecPrefix, StringComparison.Ordinal))
                    {
                        TakeSpec(cell, spec);
                    }
                    else
                    {
                        TakeField(cell, kind, values);
                    }
                    break;
            }
        }
        return problems.Errors > errors || kind is null
            ? null
            : new()
            {
                Id = texts[Id],
                Kind = kind.Value,
                Name = texts[Name],
                Maker = texts.GetValueOrDefault(Maker, ""),
                Source = texts.GetValueOrDefault(Source, ""),
                InStock = inStock,
                Values = values.ToImmutable(),
                SpecValues = spec.ToImmutable(),
            };
    }

    private PartKind? KindOf(IReadOnlyList<PartCell> cells)
    {
        foreach (var cell in cells)
        {
            if (cell.Name != Kind)
            {
                continue;
            }
            if (PartKinds.Find(cell.Text) is { } kind)
            {
                return kind;
            }
            var known = PartKinds.All.Select(PartKinds.NameOf).ToList();
            problems.Error(
                cell.Place,
                Kind,
                NearestName.Find(cell.Text, known) is { } near
                    ? Texts.Get(
                        "value.choiceNear",
                        Quoting.Short(cell.Text),
                        near,
                        string.Join(", ", known)
                    )
                    : Texts.Get("value.choice", Quoting.Short(cell.Text), string.Join(", ", known))
            );
        }
        return null;
    }

    private string IdOf(PartCell cell)
    {
        if (!PartNames.IsId(cell.Text))
        {
            problems.Error(
                cell.Place,
                Id,
                Texts.Get("parts.badId", Quoting.Short(cell.Text), Part.LongestId)
            );
        }
        else if (!ids.TryAdd(cell.Text, cell.Place))
        {
            problems.Error(
                cell.Place,
                Id,
                Texts.Get("parts.idTwice", cell.Text, ids[cell.Text].Line)
            );
        }
        return cell.Text;
    }

    private string TextOf(PartCell cell)
    {
        var text = cell.Text.Trim();
        if (cell.Items is not null)
        {
            problems.Error(
                cell.Place,
                cell.Name,
                Texts.Get("value.notSingle", Texts.Get("expect.text"))
            );
        }
        else if (
            text.Length > LongestText
            || TextIntake.FindBinary(text) is not null
            || HasBreak(text)
        )
        {
            problems.Error(cell.Place, cell.Name, Texts.Get("value.longText", LongestText));
        }
        else if (text.Length == 0)
        {
            problems.Error(
                cell.Place,
                cell.Name,
                Texts.Get("value.empty", Texts.Get("expect.text"))
            );
        }
        return text;
    }

    private static bool HasBreak(string text) => text.AsSpan().ContainsAny("\n\r\t\u0085");

    private int? StockOf(PartCell cell)
    {
        if (ScalarReader.TryWhole(cell.Text, out var count) && count <= MostInStock)
        {
            return count;
        }
        problems.Error(
            cell.Place,
            InStock,
            Texts.Get("parts.badStock", Quoting.Short(cell.Text), MostInStock)
        );
        return null;
    }

    private void TakeField(
        PartCell cell,
        PartKind? kind,
        ImmutableDictionary<PartField, PartValue>.Builder values
    )
    {
        var name = Quoting.Short(cell.Name);
        if (PartFields.Find(cell.Name) is not { } field)
        {
            problems.Error(
                cell.Place,
                name,
                WhyUnknown(cell.Name) ?? Texts.Get("parts.unknownField", name)
            );
            return;
        }
        if (kind is null)
        {
            return;
        }
        if (!field.Kinds.Contains(kind.Value))
        {
            problems.Error(
                cell.Place,
                name,
                Texts.Get(
                    "parts.otherKind",
                    name,
                    PartKinds.TitleOf(kind.Value),
                    string.Join(", ", PartFields.Of(kind.Value).Select(f => f.Name))
                )
            );
            return;
        }
        if (PartValueText.Read(field, kind.Value, cell, out var wrong) is { } value)
        {
            values[field] = value;
        }
        else
        {
            problems.Error(cell.Place, name, wrong);
        }
    }

    private void TakeSpec(PartCell cell, ImmutableSortedDictionary<string, string>.Builder spec)
    {
        var path = cell.Name[SpecPrefix.Length..];
        var text = cell.Text.Trim();
        // The same value is judged once, however many parts give it.
        if (!judged.TryGetValue((path, text), out var wrong))
        {
            wrong =
                TextIntake.FindBinary(text) is not null
                || HasBreak(text)
                || text.Length > LongestText
                    ? Texts.Get("value.longText", LongestText)
                    : new SpecValueReader(new()).Read(path, text);
            judged[(path, text)] = wrong;
        }
        if (wrong is null)
        {
            spec[path] = text;
        }
        else
        {
            problems.Error(cell.Place, Quoting.Short(cell.Name), wrong);
        }
    }
}
