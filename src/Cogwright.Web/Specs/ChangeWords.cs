using Cogwright.Files;

namespace Cogwright.Web.Specs;

/// <summary>The sentences of the list of changes.</summary>
public static class ChangeWords
{
    /// <summary>What filling in a field did: "Chainstay length: 412.5 mm instead of 410 mm".</summary>
    /// <param name="field">The field before the change.</param>
    /// <param name="text">What the sheet holds for it now, or null when it was emptied.</param>
    public static string Of(SpecField field, string? text)
    {
        ArgumentNullException.ThrowIfNull(field);
        var label = SheetFields.LabelAt(field.Path);
        return (field.Text, text) switch
        {
            (null, { } now) => Texts.Get("spec.change.first", label, Say(field, now)),
            ({ } before, null) => Texts.Get("spec.change.out", label, Say(field, before)),
            ({ } before, { } now) => Texts.Get(
                "spec.change.other",
                label,
                Say(field, now),
                Say(field, before)
            ),
            _ => label,
        };
    }

    /// <summary>What taking an entry out of a list did.</summary>
    /// <param name="list">The list before the change.</param>
    /// <param name="index">Which entry, counted from 0.</param>
    public static string Removed(SpecFieldList list, int index)
    {
        ArgumentNullException.ThrowIfNull(list);
        var said = list.Entries[index]
            .Where(field => field.Text is not null)
            .Select(field => Say(field, field.Text!));
        return Texts.Get(
            "spec.change.removed",
            list.EntryLabel,
            index + 1,
            string.Join(", ", said)
        );
    }

    /// <summary>A text of the sheet as a person says it: with its unit, a choice in words.</summary>
    public static string Say(SpecField field, string text)
    {
        ArgumentNullException.ThrowIfNull(field);
        ArgumentNullException.ThrowIfNull(text);
        return field.Kind switch
        {
            FieldKind.YesNo => text switch
            {
                "true" => Texts.Get("spec.yes"),
                "false" => Texts.Get("spec.no"),
                _ => text,
            },
            FieldKind.Choice => Choice(text),
            FieldKind.Quantity when field.Unit.Length > 0 && FieldTyping.IsNumber(text) =>
                $"{FieldTyping.Shown(field with { Text = text }, inInches: false)} {field.Unit}",
            FieldKind.Offset => string.Join(", ", PairWords(FieldTyping.PairOf(text))),
            _ => text,
        };
    }

    /// <summary>A choice in words: the names of files carry hyphens.</summary>
    public static string Choice(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return name.Replace('-', ' ');
    }

    private static string[] PairWords((string Forward, string Up) pair) =>
        [Texts.Get("spec.say.forward", pair.Forward), Texts.Get("spec.say.up", pair.Up)];
}
