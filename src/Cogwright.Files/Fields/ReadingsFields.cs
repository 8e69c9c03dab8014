namespace Cogwright.Files.Fields;

/// <summary>The table of all fields of a readings file, used as <see cref="SpecFields"/> is.</summary>
internal static class ReadingsFields
{
    private static readonly TextShape Text = new();
    private static readonly CountShape Count = new();
    private static readonly AnyQuantityShape Any = new();
    private static readonly NumberShape Factor = new();

    private static GroupShape Gauge { get; } =
        new([
            new("name", Text, Need.Required),
            new("resolution", Any, Need.Optional),
            new("uncertainty", Any, Need.Optional),
            new("expanded", Any, Need.Optional),
            new("k", Factor, Need.Optional),
        ]);

    private static GroupShape Reading { get; } =
        new([
            new("quantity", Text, Need.Required),
            new("ring", Count, Need.Optional),
            new("cog", Count, Need.Optional),
            new("value", Any, Need.Required),
            new("gauge", Text, Need.Optional),
            new("uncertainty", Any, Need.Optional),
            new("expanded", Any, Need.Optional),
            new("k", Factor, Need.Optional),
            new("convention", Text, Need.Optional),
            new("turned", Factor, Need.Optional),
        ]);

    /// <summary>The whole file. Its limits hold years of work on one bike.</summary>
    internal static GroupShape Readings { get; } =
        new([
            new("format", new NumberChoiceShape([SpecFields.Format]), Need.Optional),
            new("gauges", new ListShape(Gauge, 100), Need.Optional),
            new("readings", new ListShape(Reading, 1500), Need.Required),
        ]);
}
