using System.Net.ServerSentEvents;
using System.Text.Json;

namespace Cogwright.Server.Tests;

/// <summary>A browser that listens.</summary>
internal sealed class Events : IAsyncDisposable
{
    // How long a test waits before it says that nothing came.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    private readonly HttpResponseMessage response;
    private readonly IAsyncEnumerator<SseItem<string>> items;
    private readonly CancellationTokenSource end;

    private Events(HttpResponseMessage response, Stream stream, CancellationTokenSource end)
    {
        this.response = response;
        this.end = end;
        items = SseParser.Create(stream).EnumerateAsync(end.Token).GetAsyncEnumerator();
    }

    internal static async Task<Events> OpenAsync(
        HttpClient browser,
        string path,
        string? lastId = null
    )
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        if (lastId is not null)
        {
            request.Headers.Add("Last-Event-ID", lastId);
        }
        var response = await browser.SendAsync(request, HttpCompletionOption.ResponseHeadersRead);
        response.EnsureSuccessStatusCode();
        return new Events(
            response,
            await response.Content.ReadAsStreamAsync(),
            new CancellationTokenSource(Patience)
        );
    }

    /// <summary>The next event; null: the server has ended the stream.</summary>
    internal async Task<(string? Id, ChangeTold Told)?> NextAsync() =>
        await items.MoveNextAsync()
            ? (
                items.Current.EventId,
                JsonSerializer.Deserialize<ChangeTold>(
                    items.Current.Data,
                    JsonSerializerOptions.Web
                )!
            )
            : null;

    public async ValueTask DisposeAsync()
    {
        await items.DisposeAsync();
        response.Dispose();
        end.Dispose();
    }
}
