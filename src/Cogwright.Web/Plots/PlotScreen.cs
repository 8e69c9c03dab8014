using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;

namespace Cogwright.Web.Plots;

/// <summary>Puts plots on the screen; the library that draws them is fetched with the first one.</summary>
internal sealed class PlotScreen(IJSRuntime js) : IAsyncDisposable
{
    private IJSObjectReference? module;

    /// <summary>Draws a plot in an element, in place of what it showed.</summary>
    internal async ValueTask DrawAsync(ElementReference place, Plot plot)
    {
        module ??= await js.InvokeAsync<IJSObjectReference>("import", "./js/plots.js")
            .ConfigureAwait(true);
        await module.InvokeVoidAsync("draw", place, ToJson(plot)).ConfigureAwait(true);
    }

    /// <summary>Ends a plot: it no longer follows the window.</summary>
    internal async ValueTask ClearAsync(ElementReference place)
    {
        if (module is not null)
        {
            await module.InvokeVoidAsync("clear", place).ConfigureAwait(true);
        }
    }

    /// <summary>What the browser needs of a plot; written by hand, since a trimmed program keeps no names of properties.</summary>
    internal static string ToJson(Plot plot)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            json.WriteStartObject();
            json.WriteStartArray("lines");
            foreach (var line in plot.Lines)
            {
                json.WriteStartArray();
                foreach (var point in line.Points)
                {
                    json.WriteStartArray();
                    json.WriteNumberValue(point.X);
                    if (point.Y is { } y)
                    {
                        json.WriteNumberValue(y);
                    }
                    else
                    {
                        json.WriteNullValue();
                    }
                    json.WriteEndArray();
                }
                json.WriteEndArray();
            }
            json.WriteEndArray();
            json.WriteStartArray("limits");
            foreach (var (_, y) in plot.Limits)
            {
                json.WriteNumberValue(y);
            }
            json.WriteEndArray();
            json.WriteStartArray("labels");
            foreach (var label in plot.XLabels)
            {
                json.WriteStringValue(label);
            }
            json.WriteEndArray();
            json.WriteStartArray("range");
            json.WriteNumberValue(plot.Lines.Min(line => line.Points[0].X));
            json.WriteNumberValue(plot.Lines.Max(line => line.Points[^1].X));
            json.WriteEndArray();
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (module is not null)
        {
            await module.DisposeAsync().ConfigureAwait(false);
        }
    }
}
