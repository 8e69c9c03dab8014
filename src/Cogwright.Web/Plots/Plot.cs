using System.Collections.Immutable;

namespace Cogwright.Web.Plots;

/// <summary>One line of a plot.</summary>
/// <param name="Name">What it is of.</param>
/// <param name="Points">Its points; y is null where the figure does not exist.</param>
public sealed record PlotLine(string Name, ImmutableArray<PlotPoint> Points);

/// <summary>A point of a line.</summary>
/// <param name="X">Place along the axis.</param>
/// <param name="Y">The figure, or null when there is none there.</param>
public readonly record struct PlotPoint(double X, double? Y);

/// <summary>A plot with its words, so that it can be read without being seen. Immutable.</summary>
public sealed record Plot
{
    /// <summary>Stable name.</summary>
    public required string Id { get; init; }

    /// <summary>What it shows.</summary>
    public required string Title { get; init; }

    /// <summary>What the axis along is, with its unit.</summary>
    public required string XTitle { get; init; }

    /// <summary>What the axis up is, with its unit.</summary>
    public required string YTitle { get; init; }

    /// <summary>The lines.</summary>
    public required ImmutableArray<PlotLine> Lines { get; init; }

    /// <summary>Labels of whole places along (cogs), or empty when the axis is a plain number.</summary>
    public ImmutableArray<string> XLabels { get; init; } = [];

    /// <summary>Limits drawn across, each with its name.</summary>
    public ImmutableArray<(string Name, double Y)> Limits { get; init; } = [];

    /// <summary>The plot in words.</summary>
    public required string Summary { get; init; }

    /// <summary>Format of its figures.</summary>
    public string Format { get; init; } = "0.0";

    /// <summary>What a table calls a place along.</summary>
    public string XLabel(double x) =>
        XLabels.IsEmpty
            ? x.ToString("0.#", System.Globalization.CultureInfo.InvariantCulture)
            : XLabels[(int)x];
}
