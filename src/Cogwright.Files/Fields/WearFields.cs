using System.Collections.Immutable;
using System.Text.Json;
using Cogwright.Care;

namespace Cogwright.Files.Fields;

/// <summary>The table of all fields of a file of wear, used as <see cref="SpecFields"/> is.</summary>
internal static class WearFields
{
    private const int MostChains = 100;
    private const int MostReadings = 300;
    private const int MostParts = 2000;

    private static readonly NumberShape Number = new();
    private static readonly CountShape Count = new();
    private static readonly DateShape Date = new();
    private static readonly FlagShape Flag = new();

    /// <summary>The ways by their names in files.</summary>
    internal static ImmutableArray<WearWay> Ways { get; } = [.. Enum.GetValues<WearWay>()];

    /// <summary>The kinds of parts by their names in files; the chain has a list of its own.</summary>
    internal static ImmutableArray<CareKind> Kinds { get; } =
    [.. Enum.GetValues<CareKind>().Where(kind => kind != CareKind.Chain)];

    /// <summary>The list of a reading that each way needs.</summary>
    internal static string ListOf(WearWay way) =>
        way switch
        {
            WearWay.Ruler => "lengths",
            WearWay.TwoPoint or WearWay.ThreePoint => "percents",
            _ => "classes",
        };

    /// <summary>A name of the program as files write it: first letter small.</summary>
    internal static string NameOf<T>(T value)
        where T : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());

    private static GroupShape Class { get; } =
        new([new("goes", Number, Need.Optional), new("stops", Number, Need.Optional)]);

    private static GroupShape Play { get; } =
        new([new("mm", Number, Need.Required), new("uncertainty", Number, Need.Required)]);

    private static GroupShape Reading { get; } =
        new([
            new("on", Date, Need.Required),
            new("at", Number, Need.Optional),
            new("way", new ChoiceShape(() => [.. Ways.Select(NameOf)]), Need.Required),
            new("pitches", Count, Need.Required),
            new("lengths", new ListShape(new TapeShape(), WearReading.MostSpots), Need.Optional),
            new("percents", new ListShape(Number, WearReading.MostSpots), Need.Optional),
            new("classes", new ListShape(Class, WearReading.MostSpots), Need.Optional),
            new("uncertainty", Number, Need.Optional),
            new("play", Play, Need.Optional),
        ]);

    private static GroupShape Chain { get; } =
        new([
            new("on", Date, Need.Optional),
            new("at", Number, Need.Optional),
            new("withNewCogs", Flag, Need.Optional),
            new("wasNew", Flag, Need.Optional),
            new("readings", new ListShape(Reading, MostReadings), Need.Optional),
        ]);

    private static GroupShape Part { get; } =
        new([
            new("kind", new ChoiceShape(() => [.. Kinds.Select(NameOf)]), Need.Required),
            new(
                "place",
                new ChoiceShape(() => [.. Enum.GetValues<CarePlace>().Select(NameOf)]),
                Need.Optional
            ),
            new("on", Date, Need.Required),
            new("at", Number, Need.Optional),
            new("value", Number, Need.Optional),
            new("uncertainty", Number, Need.Optional),
            new("stamped", Number, Need.Optional),
            new("count", Count, Need.Optional),
            new("makersCount", Count, Need.Optional),
            new("isNew", Flag, Need.Optional),
        ]);

    private static GroupShape Limits { get; } =
        new([
            new(
                "chain",
                new ListShape(
                    new GroupShape([
                        new("cogs", Count, Need.Required),
                        new("percent", Number, Need.Required),
                    ]),
                    WearLimits.MostCogs
                ),
                Need.Optional
            ),
            new("cogsToo", Number, Need.Optional),
            .. CareTerm.All.Select(term => new Field(term.Name, Number, Need.Optional)),
        ]);

    /// <summary>The whole file.</summary>
    internal static GroupShape Wear { get; } =
        new([
            new("format", new NumberChoiceShape([SpecFields.Format]), Need.Optional),
            new("code", new TextShape(20), Need.Optional),
            new("cogCount", Count, Need.Optional),
            new(
                "counter",
                new ChoiceShape(() => [.. Enum.GetValues<UsageUnit>().Select(NameOf)]),
                Need.Optional
            ),
            new("chains", new ListShape(Chain, MostChains), Need.Optional),
            new("care", new ListShape(Part, MostParts), Need.Optional),
            new("limits", Limits, Need.Optional),
        ]);
}
