using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Components.WebAssembly.Http;

namespace Cogwright.Web.Parts;

/// <summary>The shop's library over HTTP.</summary>
internal sealed class HttpShopParts(HttpClient http) : IShopParts
{
    public async Task<ShopLibrary?> FetchAsync(string? mark, CancellationToken cancellation)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "api/v1/parts/file?format=csv");
        if (mark is not null && EntityTagHeaderValue.TryParse(mark, out var known))
        {
            request.Headers.IfNoneMatch.Add(known);
        }
        using var answer = await http.SendAsync(request, cancellation).ConfigureAwait(true);
        if (answer.StatusCode == HttpStatusCode.NotModified)
        {
            return null;
        }
        answer.EnsureSuccessStatusCode();
        // Without its mark it is no answer of this server's: a hotel's log-in page, say.
        var now = answer.Headers.ETag?.ToString() ?? throw new HttpRequestException("ETag");
        // The browser answers from its own cache in its own way.
        return now == mark
            ? null
            : new(await answer.Content.ReadAsStringAsync(cancellation).ConfigureAwait(true), now);
    }

    public async Task SetDemoAsync(bool there, CancellationToken cancellation)
    {
        using var request = new HttpRequestMessage(
            there ? HttpMethod.Put : HttpMethod.Delete,
            "api/v1/demo/parts"
        );
        request.Headers.Add("X-Cogwright", "1");
        using var answer = await http.SendAsync(request, cancellation).ConfigureAwait(true);
        answer.EnsureSuccessStatusCode();
    }

    public async Task ImportAsync(
        string text,
        string name,
        IProgress<ImportProgress> progress,
        CancellationToken cancellation
    )
    {
        using var request = new HttpRequestMessage(
            HttpMethod.Post,
            $"api/v1/parts/import?skip=bad&name={Uri.EscapeDataString(name)}"
        )
        {
            Content = new StringContent(text, Encoding.UTF8, "text/plain"),
        };
        request.Headers.Add("X-Cogwright", "1");
        request.SetBrowserResponseStreamingEnabled(true);
        using var answer = await http.SendAsync(
                request,
                HttpCompletionOption.ResponseHeadersRead,
                cancellation
            )
            .ConfigureAwait(true);
        if (!answer.IsSuccessStatusCode)
        {
            throw Refused(
                await answer.Content.ReadAsStringAsync(cancellation).ConfigureAwait(true)
            );
        }
        using var lines = new StreamReader(
            await answer.Content.ReadAsStreamAsync(cancellation).ConfigureAwait(true)
        );
        var isDone = false;
        while (await lines.ReadLineAsync(cancellation).ConfigureAwait(true) is { } line)
        {
            isDone |= Told(line, progress);
        }
        if (!isDone)
        {
            throw new HttpRequestException(Texts.Get("parts.importBroken"));
        }
    }

    /// <summary>Passes one line on; whether it is the last one.</summary>
    private static bool Told(string line, IProgress<ImportProgress> progress)
    {
        if (line.Length == 0)
        {
            return false;
        }
        using var json = JsonDocument.Parse(line);
        var told = json.RootElement;
        switch (told.GetProperty("at").GetString())
        {
            case "storing":
                progress.Report(
                    new(told.GetProperty("done").GetInt64(), told.GetProperty("all").GetInt64())
                );
                return false;
            case "done":
                return true;
            case "refused" or "failed":
                throw Refused(told.GetProperty("problem").GetRawText());
            default:
                return false;
        }
    }

    /// <summary>A refusal in the server's own words.</summary>
    private static HttpRequestException Refused(string body)
    {
        try
        {
            using var json = JsonDocument.Parse(body);
            return new(
                json.RootElement.TryGetProperty("detail", out var detail)
                    ? detail.GetString()
                    : body
            );
        }
        catch (JsonException)
        {
            return new(body);
        }
    }
}
