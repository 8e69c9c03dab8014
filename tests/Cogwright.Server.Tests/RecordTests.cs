using System.Net;
using System.Net.Http.Json;
using System.Security.Cryptography;
using Cogwright.Facts;
using Cogwright.Facts.Records;
using Cogwright.Log;
using Cogwright.Paper;
using Cogwright.Setup.Jobs;

namespace Cogwright.Server.Tests;

/// <summary>The record as the server makes it: PDF, square code, the customer's page.</summary>
public sealed class RecordTests
{
    private static readonly LogId Bike = Bench.Job(7);

    [Fact]
    public async Task Pdf_ClosedJob_HoldsTheCountersignedRecord()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var (entries, job) = ClosedJob();
        await JobTests.SendAsync(owner, Bike, entries);

        var answer = await owner.GetAsync($"api/v1/jobs/{Bike}/record/{job}/record.pdf?offset=60");
        var pdf = await answer.Content.ReadAsByteArrayAsync();
        var file = RecordFile.Read(PdfAttachment.Find(pdf, RecordFile.AttachmentName))!;

        Assert.Equal("application/pdf", answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal(entries.Count, file.Entries.Length);
        Assert.Equal(job, file.Job);
        Assert.Equal(60, file.OffsetMinutes);
        // It came in closed, so it was countersigned at once.
        Assert.Single(file.Statements);
        var report = await RecordCheck.OfAsync(file, running.Server.Key);
        Assert.Empty(report.Findings);
        Assert.Contains(
            report.Proven,
            text => text.Contains($"{entries.Count} of {entries.Count}", StringComparison.Ordinal)
        );
        Assert.Contains(
            PdfPages.Lines(pdf)!.Value.SelectMany(page => page),
            line => line.Contains("Grey tourer", StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task Append_JobNotOver_IsNotCountersigned()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var (entries, _) = ClosedJob();
        await JobTests.SendAsync(owner, Bike, entries.SkipLast(1));

        Assert.Empty(await running.Server.Store.StatementsAsync(Bike));
    }

    [Fact]
    public async Task Append_SentAgain_IsNotCountersignedAgain()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var (entries, _) = ClosedJob();
        await JobTests.SendAsync(owner, Bike, entries);
        await JobTests.SendAsync(owner, Bike, entries);

        Assert.Single(await running.Server.Store.StatementsAsync(Bike));
    }

    [Theory]
    [InlineData("record.pdf?paper=a5")]
    [InlineData("record.pdf?offset=9000")]
    public async Task Pdf_BadQuery_IsRefused(string query)
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var (entries, job) = ClosedJob();
        await JobTests.SendAsync(owner, Bike, entries);

        var answer = await owner.GetAsync($"api/v1/jobs/{Bike}/record/{job}/{query}");

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal("bad-field", await Running.ProblemOfAsync(answer));
    }

    [Fact]
    public async Task Pdf_NoSuchJob_IsNotFound()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        await JobTests.SendAsync(owner, Bike, ClosedJob().Entries);

        var answer = await owner.GetAsync($"api/v1/jobs/{Bike}/record/{Guid.Empty}/record.pdf");

        Assert.Equal("not-found", await Running.ProblemOfAsync(answer));
    }

    [Fact]
    public async Task Code_OfARecord_IsADrawingThatNamesNobody()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var (entries, job) = ClosedJob();
        await JobTests.SendAsync(owner, Bike, entries);

        var svg = await owner.GetStringAsync($"api/v1/jobs/{Bike}/record/{job}/code.svg");

        Assert.Contains(
            $"/bike/{Bike}/record/{job}#{entries[^1].Hash.ToString()[..16]}",
            svg,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("Grey", svg, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Link_AskedForHtml_IsAPageWithItsPdf_AndWhatWasTypedIsText()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        await JobTests.SendAsync(owner, Bike, ClosedJob("<b>bold</b>").Entries);
        var made = await (
            await owner.PostAsJsonAsync($"api/v1/jobs/{Bike}/links", new NewLink())
        ).Content.ReadFromJsonAsync<NewLinkAnswer>();
        var customer = running.NewBrowser(sendsHeader: false);
        using var request = new HttpRequestMessage(HttpMethod.Get, made!.Address);
        request.Headers.Accept.ParseAdd("text/html,application/xhtml+xml");

        using var answer = await customer.SendAsync(request);
        var html = await answer.Content.ReadAsStringAsync();
        var pdf = await customer.GetByteArrayAsync(made.Address + "/record.pdf");

        Assert.Equal("text/html", answer.Content.Headers.ContentType!.MediaType);
        Assert.Contains("<h1>&lt;b&gt;bold&lt;/b&gt;</h1>", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<b>bold", html, StringComparison.Ordinal);
        Assert.Contains("/record.pdf\"", html, StringComparison.Ordinal);
        Assert.NotNull(PdfAttachment.Find(pdf, RecordFile.AttachmentName));
    }

    [Fact]
    public async Task PdfOfALink_ThatNeverWas_IsAnsweredAsTheLinkItself()
    {
        await using var running = await Running.StartAsync();
        await running.NewOwnerAsync();
        var customer = running.NewBrowser(sendsHeader: false);

        var answer = await customer.GetAsync("record/never/record.pdf");

        Assert.Equal("no-such-link", await Running.ProblemOfAsync(answer));
    }

    private static (IReadOnlyList<Entry> Entries, string Job) ClosedJob(string title = "New chain")
    {
        var log = new EntryLog(Bike);
        EntryId? last = null;
        Add(
            SpecEntry.Draft(
                new(
                    "New bike",
                    System.Collections.Immutable.ImmutableSortedDictionary<
                        string,
                        string?
                    >.Empty.Add("name", "Grey tourer")
                )
            )
        );
        var job = Add(JobEntry.Begin(title));
        Add(JobEntry.Hands(job, "AB", ""));
        Add(JobEntry.Stage(job, JobStage.Handover));
        Add(JobEntry.Close(job, new DateOnly(2026, 4, 20)));
        return ([.. log.Ordered], job);

        string Add(EntryDraft draft)
        {
            var stamp = EntryStamp.Next(
                last,
                new DateTime(2026, 3, 14, 8, 0, 0, DateTimeKind.Utc).Ticks,
                RandomNumberGenerator.GetBytes(EntryId.RandomBytes)
            );
            var entry = log.Prepare(
                new(Bench.IdOf(1)),
                stamp,
                draft with
                {
                    Author = "device:1",
                }
            ).Value!;
            log.Add(entry);
            last = entry.Id;
            return entry.Id.ToString();
        }
    }
}
