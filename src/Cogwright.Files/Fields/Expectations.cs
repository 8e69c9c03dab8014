using Cogwright.Parts;

namespace Cogwright.Files.Fields;

/// <summary>Says in words what was expected, for messages, schema and guide.</summary>
internal static class Expectations
{
    internal static string Of(Shape shape) =>
        shape switch
        {
            GroupShape group => Texts.Get(
                "expect.group",
                string.Join(", ", group.Fields.Select(f => f.Name))
            ),
            ListShape => Texts.Get("expect.list"),
            TextShape => Texts.Get("expect.text"),
            FlagShape => Texts.Get("expect.flag"),
            DateShape => Texts.Get("expect.date"),
            CountShape => Texts.Get("expect.count"),
            ChoiceShape choice => Texts.Get("expect.choice", string.Join(", ", choice.Names())),
            NumberChoiceShape numbers => Texts.Get(
                "expect.choice",
                string.Join(", ", numbers.Numbers)
            ),
            QuantityShape quantity => Texts.Get("expect." + quantity.Dimension),
            TapeShape => Texts.Get("expect.tape"),
            NumberShape => Texts.Get("expect.number"),
            AnyQuantityShape => Texts.Get("expect.anyQuantity"),
            ExpressionShape => Texts.Get("expect.expression"),
            OffsetShape => Texts.Get("expect.offset"),
            GearShape => Texts.Get("expect.gear"),
            TeethShape => Texts.Get("expect.teeth"),
            LengthsShape { MayMiss: false } => Texts.Get("expect.allLengths"),
            LengthsShape => Texts.Get("expect.lengths"),
            PartIdShape part => Texts.Get("expect.partId", PartKinds.TitleOf(part.Kind)),
            PartIdsShape => Texts.Get("expect.partIds"),
            RefusedShape => Texts.Get("expect.refused"),
            _ => throw new ArgumentOutOfRangeException(nameof(shape)),
        };
}
