using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Cogwright.Log;

namespace Cogwright.Web.Device;

/// <summary>The shop's server over HTTP.</summary>
internal sealed class HttpShop(HttpClient http) : IShop
{
    // Poor Wi-Fi: longer than that is no connection.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    // Some 500 kB on the same Wi-Fi.
    private static readonly TimeSpan PhotoPatience = TimeSpan.FromMinutes(3);

    private const string SaltHeader = "Cogwright-Salt";

    public async Task<ImmutableArray<ShopJob>> JobsAsync() =>
        [
            .. await ListAsync("jobs").ConfigureAwait(true),
            .. await ListAsync("shop/log").ConfigureAwait(true),
        ];

    private async Task<IEnumerable<ShopJob>> ListAsync(string path) =>
        (
            await AskAsync(HttpMethod.Get, path, null, ShopJson.Default.JobShapeArray)
                .ConfigureAwait(true)
        ).Select(job => new ShopJob(new(job.Job), job.LastReceipt));

    public Task<OverviewShape> OverviewAsync() =>
        AskAsync(HttpMethod.Get, "overview", null, ShopJson.Default.OverviewShape);

    public Task<FoundShape> FindAsync(string words) =>
        AskAsync(
            HttpMethod.Get,
            "search?words=" + Uri.EscapeDataString(words),
            null,
            ShopJson.Default.FoundShape
        );

    public Task PlanAsync(string kind, double? hours) =>
        SendAsync(
            HttpMethod.Put,
            "overview/plan/" + kind,
            JsonSerializer.Serialize(new PlanShape(hours), ShopJson.Default.PlanShape)
        );

    public async Task<ShopPage> PullAsync(LogId log, PullCursor cursor)
    {
        var page = await AskAsync(
                HttpMethod.Get,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"jobs/{log}/entries?epoch={cursor.Epoch}&after={cursor.Receipt}"
                ),
                null,
                ShopJson.Default.PullShape
            )
            .ConfigureAwait(true);
        var read = page.Entries.Select(bytes => (Bytes: bytes, Entry: Entry.Read(bytes))).ToList();
        return new(
            new(
                page.Epoch,
                page.After,
                page.Last,
                [.. read.Where(each => each.Entry.IsGood).Select(each => each.Entry.Value!)],
                [
                    .. page.Tips.Select(tip => new ChainTip(
                        new(tip.Device),
                        tip.Sequence,
                        new(tip.Id),
                        new(Convert.FromHexString(tip.Hash))
                    )),
                ],
                page.HasMore
            ),
            [.. read.Where(each => !each.Entry.IsGood).Select(each => each.Bytes)]
        );
    }

    public async Task<AnswerPage> AppendAsync(LogId log, ImmutableArray<Entry> entries)
    {
        var body = JsonSerializer.Serialize(
            new AppendShape([.. entries.Select(entry => entry.Encoded.ToArray())]),
            ShopJson.Default.AppendShape
        );
        var page = await AskAsync(
                HttpMethod.Post,
                $"jobs/{log}/entries",
                body,
                ShopJson.Default.AnswersShape
            )
            .ConfigureAwait(true);
        return new(
            page.Epoch,
            [
                .. page.Answers.Select(answer => new Answer(
                    new(answer.Id),
                    new(Convert.FromHexString(answer.Hash)),
                    answer.Status switch
                    {
                        "created" => AnswerStatus.Created,
                        "exists" => AnswerStatus.Exists,
                        _ => AnswerStatus.Refused,
                    },
                    answer.Reason
                )),
            ]
        );
    }

    public async Task<ShopPhotos> PhotosAsync(LogId log)
    {
        var shape = await AskAsync(
                HttpMethod.Get,
                $"jobs/{log}/personal",
                null,
                ShopJson.Default.HoldingsShape
            )
            .ConfigureAwait(true);
        return new(SetOf(shape.Held), SetOf(shape.Erased));
    }

    public Task SendPhotoAsync(LogId log, PersonalDatum photo, string contentType)
    {
        var body = new ReadOnlyMemoryContent(photo.Data);
        body.Headers.ContentType = new(contentType);
        return SendAsync(
            HttpMethod.Put,
            $"jobs/{log}/personal/{photo.Digest}",
            body,
            // Anything else that goes well is no answer of this server's: a hotel's log-in page, say.
            (answer, _) =>
                answer.StatusCode is HttpStatusCode.Created or HttpStatusCode.NoContent
                    ? Task.FromResult(true)
                    : throw new HttpRequestException($"{(int)answer.StatusCode}"),
            PhotoPatience,
            request => request.Headers.Add(SaltHeader, Convert.ToHexStringLower(photo.Salt.Span))
        );
    }

    public async Task<PersonalDatum?> PhotoAsync(LogId log, Digest digest)
    {
        try
        {
            return await SendAsync(
                    HttpMethod.Get,
                    $"jobs/{log}/personal/{digest}",
                    null,
                    DatumAsync,
                    PhotoPatience
                )
                .ConfigureAwait(true);
        }
        catch (ShopException e) when (e.Fault == ShopFault.NotThere)
        {
            return null;
        }
    }

    public async Task<CountersignedHeads?> StatementAsync(LogId log, bool anew)
    {
        var path = $"jobs/{log}/statements";
        var stated = anew
            ? await AskAsync(HttpMethod.Post, path, null, ShopJson.Default.StatementShape)
                .ConfigureAwait(true)
            : (
                await AskAsync(HttpMethod.Get, path, null, ShopJson.Default.StatementShapeArray)
                    .ConfigureAwait(true)
            ).LastOrDefault();
        return stated is not null && HeadStatement.Read(stated.Encoded) is { IsGood: true } read
            ? new(read.Value, stated.Signature)
            : null;
    }

    private static async Task<PersonalDatum> DatumAsync(
        HttpResponseMessage answer,
        CancellationToken cancellation
    )
    {
        var data = await answer.Content.ReadAsByteArrayAsync(cancellation).ConfigureAwait(true);
        var salt = answer.Headers.TryGetValues(SaltHeader, out var said)
            ? Convert.FromHexString(said.First())
            : [];
        // Without its salt it is no answer of this server's: a hotel's log-in page, say.
        return salt.Length == PersonalDatum.SaltBytes
            ? new PersonalDatum(salt, data)
            : throw new HttpRequestException(SaltHeader);
    }

    private static ImmutableHashSet<Digest> SetOf(string[] digests) =>
        [.. digests.Select(digest => new Digest(Convert.FromHexString(digest)))];

    public async Task<ShopPerson> PersonAsync() =>
        Of(
            await AskAsync(HttpMethod.Get, "session", null, ShopJson.Default.SessionShape)
                .ConfigureAwait(true)
        );

    public async Task<ShopPerson> LogInAsync(string userName, string password, DeviceId device)
    {
        var body = JsonSerializer.Serialize(
            new LogInShape(userName, password, device.Value),
            ShopJson.Default.LogInShape
        );
        return Of(
            await AskAsync(HttpMethod.Post, "session", body, ShopJson.Default.SessionShape)
                .ConfigureAwait(true)
        );
    }

    public Task LogOutAsync() => SendAsync(HttpMethod.Delete, "session", null);

    private static ShopPerson Of(SessionShape session) => new(session.Role, session.Account);

    private async Task<T> AskAsync<T>(
        HttpMethod method,
        string path,
        string? body,
        JsonTypeInfo<T> type
    )
    {
        var text = await SendAsync(method, path, body).ConfigureAwait(true);
        try
        {
            return JsonSerializer.Deserialize(text, type) ?? throw new JsonException(path);
        }
        catch (JsonException e)
        {
            // Not this program's server either, if what it says is no JSON: a hotel's log-in page, say.
            throw new ShopException(ShopFault.Gone, e.Message);
        }
    }

    private Task<string> SendAsync(HttpMethod method, string path, string? body) =>
        SendAsync(
            method,
            path,
            body is null ? null : new StringContent(body, Encoding.UTF8, "application/json"),
            (answer, cancellation) => answer.Content.ReadAsStringAsync(cancellation),
            Patience
        );

    private async Task<T> SendAsync<T>(
        HttpMethod method,
        string path,
        HttpContent? body,
        Func<HttpResponseMessage, CancellationToken, Task<T>> read,
        TimeSpan most,
        Action<HttpRequestMessage>? dress = null
    )
    {
        using var patience = new CancellationTokenSource(most);
        using var request = new HttpRequestMessage(method, "api/v1/" + path) { Content = body };
        request.Headers.Add("X-Cogwright", "1");
        dress?.Invoke(request);
        try
        {
            using var answer = await http.SendAsync(request, patience.Token).ConfigureAwait(true);
            return answer.IsSuccessStatusCode
                ? await read(answer, patience.Token).ConfigureAwait(true)
                : throw Refusal(
                    answer,
                    await answer.Content.ReadAsStringAsync(patience.Token).ConfigureAwait(true)
                );
        }
        catch (Exception e)
            when (e
                    is HttpRequestException
                        or OperationCanceledException
                        or JsonException
                        or FormatException
            )
        {
            throw new ShopException(ShopFault.Gone, e.Message);
        }
    }

    private static ShopException Refusal(HttpResponseMessage answer, string text)
    {
        ProblemShape? problem = null;
        if (answer.Content.Headers.ContentType?.MediaType == "application/problem+json")
        {
            problem = JsonSerializer.Deserialize(text, ShopJson.Default.ProblemShape);
        }
        var fault =
            problem is null ? ShopFault.Gone
            : problem.Code == "bad-entry" ? ShopFault.BadEntry
            : problem.Code == "not-logged-in" ? ShopFault.LogIn
            : problem.Code == "erased" ? ShopFault.Erased
            : problem.Code == "not-found" ? ShopFault.NotThere
            : answer.StatusCode is HttpStatusCode.ServiceUnavailable ? ShopFault.Gone
            : ShopFault.Refused;
        return new(
            fault,
            problem is null
                ? $"{(int)answer.StatusCode}"
                : string.Join(
                    ' ',
                    new[] { problem.Title, problem.Detail, problem.Next }.Where(each =>
                        !string.IsNullOrEmpty(each)
                    )
                )
        )
        {
            RetryAfter = answer.Headers.RetryAfter?.Delta,
        };
    }
}

internal sealed record JobShape(Guid Job, long LastReceipt);

internal sealed record PullShape(
    Guid Epoch,
    long After,
    long Last,
    byte[][] Entries,
    TipShape[] Tips,
    bool HasMore
);

internal sealed record TipShape(Guid Device, long Sequence, Guid Id, string Hash);

internal sealed record AppendShape(byte[][] Entries);

internal sealed record AnswersShape(Guid Epoch, AnswerShape[] Answers);

internal sealed record AnswerShape(Guid Id, string Hash, string Status, string Reason);

internal sealed record StatementShape(byte[] Encoded, byte[] Signature);

internal sealed record HoldingsShape(string[] Held, string[] Erased);

internal sealed record SessionShape(string Role, Guid? Account = null);

internal sealed record LogInShape(string UserName, string Password, Guid Device);

internal sealed record ProblemShape(
    string? Code = null,
    string? Title = null,
    string? Detail = null,
    string? Next = null
);

internal sealed record GrownShape(Guid Job, Guid Epoch, long Receipt);

/// <summary>The server's shapes; made at build time, so that trimming takes nothing away.</summary>
// What lacks a part is no answer of this server's.
[JsonSourceGenerationOptions(
    JsonSerializerDefaults.Web,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true
)]
[JsonSerializable(typeof(JobShape[]))]
[JsonSerializable(typeof(OverviewShape))]
[JsonSerializable(typeof(FoundShape))]
[JsonSerializable(typeof(PlanShape))]
[JsonSerializable(typeof(PullShape))]
[JsonSerializable(typeof(AppendShape))]
[JsonSerializable(typeof(AnswersShape))]
[JsonSerializable(typeof(StatementShape))]
[JsonSerializable(typeof(StatementShape[]))]
[JsonSerializable(typeof(HoldingsShape))]
[JsonSerializable(typeof(SessionShape))]
[JsonSerializable(typeof(LogInShape))]
[JsonSerializable(typeof(ProblemShape))]
[JsonSerializable(typeof(GrownShape))]
internal sealed partial class ShopJson : JsonSerializerContext;
