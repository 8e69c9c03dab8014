using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
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
        if (!answer.IsSuccessStatusCode)
        {
            throw await RefusedAsync(answer, cancellation).ConfigureAwait(true);
        }
    }

    public async Task ImportAsync(
        ReadOnlyMemory<byte> file,
        string name,
        string mark,
        IProgress<ImportProgress> progress,
        CancellationToken cancellation
    )
    {
        var revision = RevisionOf(mark) is { } seen ? $"&revision={seen}" : "";
        using var request = new HttpRequestMessage(
            HttpMethod.Post,
            $"api/v1/parts/import?skip=bad&name={Uri.EscapeDataString(name)}{revision}"
        )
        {
            Content = new ReadOnlyMemoryContent(file),
        };
        // What it is in truth, its name and its content say.
        request.Content.Headers.ContentType = new("text/plain");
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
            throw await RefusedAsync(answer, cancellation).ConfigureAwait(true);
        }
        try
        {
            using var lines = new StreamReader(
                await answer.Content.ReadAsStreamAsync(cancellation).ConfigureAwait(true)
            );
            while (await lines.ReadLineAsync(cancellation).ConfigureAwait(true) is { } line)
            {
                if (Told(line, progress))
                {
                    return;
                }
            }
        }
        catch (Exception e)
            when (e
                    is IOException
                        or JsonException
                        or KeyNotFoundException
                        or InvalidOperationException
                        or FormatException
            )
        {
            // Cut off, or not this server's words at all: a hotel's log-in page, say.
            throw new HttpRequestException(Texts.Get("parts.importBroken"), e);
        }
        throw new HttpRequestException(Texts.Get("parts.importBroken"));
    }

    /// <summary>The number of the library's state in its mark, such as 7 in <c>"9f…-7-csv"</c>, or null.</summary>
    private static long? RevisionOf(string mark) =>
        mark.Trim('"').Split('-') is [_, var number, _]
        && long.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var revision)
            ? revision
            : null;

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
                throw Refused(
                    told.GetProperty("problem").GetRawText(),
                    HttpStatusCode.UnprocessableContent
                );
            default:
                return false;
        }
    }

    private static async Task<HttpRequestException> RefusedAsync(
        HttpResponseMessage answer,
        CancellationToken cancellation
    ) =>
        Refused(
            await answer.Content.ReadAsStringAsync(cancellation).ConfigureAwait(true),
            answer.StatusCode
        );

    /// <summary>A refusal in the server's own words: what, and what to do.</summary>
    private static HttpRequestException Refused(string body, HttpStatusCode status)
    {
        try
        {
            using var json = JsonDocument.Parse(body);
            var problem = json.RootElement;
            return new(Part("detail") + " " + Part("next"), null, status);

            string Part(string name) =>
                problem.TryGetProperty(name, out var part) ? part.GetString() ?? "" : "";
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return new($"{(int)status}", e, status);
        }
    }
}
