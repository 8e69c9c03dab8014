using System.Collections.Immutable;
using Cogwright.Facts;
using Cogwright.Facts.Records;
using Cogwright.Log;
using Cogwright.Setup.Records;
using Cogwright.Web.Device;
using Cogwright.Web.Jobs;
using Microsoft.AspNetCore.Components;

namespace Cogwright.Web.Pages;

/// <summary>The record of one job: to read, to print, to fetch as a PDF, to add to.</summary>
public sealed partial class RecordPage
{
    private JobRecord? made;
    private (string Job, int Entries, long Serial) madeOf;
    private long askedFor = -1;
    private bool isAmending;
    private bool isBusy;
    private string text = "";
    private string by = "";

    /// <summary>The job.</summary>
    [Parameter]
    public required string JobId { get; set; }

    private bool IsReached => Courier.State == ContactState.Reached && Shelf.UnsentCount == 0;

    private string Route => $"api/v1/jobs/{Id}/record/{JobId}";

    /// <summary>
    /// Whether the paper that led here is of this record as it was closed, which one that is open is not; null when no paper did.
    /// </summary>
    private bool? PaperHash =>
        new Uri(Navigation.Uri).Fragment is { Length: 17 } fragment && made is { } record
            ? record.Closing is { } closing
                && closing.Hash.ToString().StartsWith(fragment[1..], StringComparison.Ordinal)
            : null;

    /// <inheritdoc/>
    protected override void OnInitialized()
    {
        base.OnInitialized();
        Courier.Changed += OnContact;
    }

    /// <inheritdoc/>
    protected override void StopFollowing()
    {
        base.StopFollowing();
        Courier.Changed -= OnContact;
    }

    /// <inheritdoc/>
    protected override async Task OnParametersSetAsync()
    {
        await base.OnParametersSetAsync().ConfigureAwait(true);
        await AskAsync().ConfigureAwait(true);
    }

    private void OnContact() =>
        Follow(async () =>
        {
            await AskAsync().ConfigureAwait(true);
            StateHasChanged();
        });

    private JobRecord? Made()
    {
        if (Shelf.EntriesOf(Id) is not { } log)
        {
            return made = null;
        }
        var statements = Shelf.StatementsOn(log.Id);
        var of = (JobId, log.Count, statements is [.., var last] ? last.Statement.Serial : 0);
        if (made is null || of != madeOf)
        {
            var closed = JobRecord.ClosingOf(log, JobId);
            made = JobRecord.Of(
                log,
                JobId,
                new()
                {
                    Address = Navigation.BaseUri,
                    OffsetMinutes = OffsetOf(closed?.WallClockTicks),
                    Statements = statements,
                    // Of a job that is over the spec is that of its closing, as on the PDF, and not that on the stand now.
                    Aims = closed is null ? _ => Jobs.AimOf : null,
                }
            );
            madeOf = of;
        }
        return made;
    }

    /// <summary>
    /// Asks the server once for each state of the log what it has stated; where that does not cover the record, asks it to state
    /// anew. What it answers is kept on the device.
    /// </summary>
    private async Task AskAsync()
    {
        if (
            !IsReached
            || Made() is not { Closing: not null } record
            || askedFor == record.Log.Count
        )
        {
            return;
        }
        askedFor = record.Log.Count;
        try
        {
            await KeepAsync(
                    await Shop.StatementAsync(record.Log.Id, anew: false).ConfigureAwait(true)
                )
                .ConfigureAwait(true);
            if (Made() is { NotCountersigned: > 0 })
            {
                await KeepAsync(
                        await Shop.StatementAsync(record.Log.Id, anew: true).ConfigureAwait(true)
                    )
                    .ConfigureAwait(true);
            }
        }
        catch (ShopException)
        {
            // The record says that it is not countersigned; how the server stands is shown at the head of every page.
        }
    }

    private async Task KeepAsync(CountersignedHeads? stated)
    {
        if (
            stated is not null
            && Shelf.StatementsOn(stated.Statement.Log) is var known
            && (known.IsEmpty || known[^1].Statement.Serial < stated.Statement.Serial)
        )
        {
            await Shelf.KeepStatementAsync(stated).ConfigureAwait(true);
        }
    }

    private async Task AmendAsync()
    {
        if (isBusy || string.IsNullOrWhiteSpace(text) || string.IsNullOrWhiteSpace(by))
        {
            return;
        }
        isBusy = true;
        try
        {
            await Jobs.AddAsync(JobEntry.Amend(JobId, by.Trim(), text.Trim())).ConfigureAwait(true);
            (text, isAmending) = ("", false);
        }
        finally
        {
            isBusy = false;
        }
    }

    /// <summary>How far this place was ahead of UTC then (minutes).</summary>
    internal static int OffsetOf(long? utcTicks)
    {
        var at = new DateTime(
            Math.Clamp(
                utcTicks ?? DateTime.UtcNow.Ticks,
                DateTime.UnixEpoch.Ticks,
                new DateTime(9000, 1, 1).Ticks
            ),
            DateTimeKind.Utc
        );
        return (int)TimeZoneInfo.Local.GetUtcOffset(at).TotalMinutes;
    }

    private static RenderFragment List(
        string name,
        ImmutableArray<string> texts,
        bool isSmall = false
    ) =>
        builder =>
        {
            if (texts.IsEmpty)
            {
                return;
            }
            builder.OpenElement(0, isSmall ? "h3" : "h2");
            builder.AddContent(1, Texts.Get("record." + name));
            builder.CloseElement();
            builder.OpenElement(2, "ul");
            foreach (var text in texts)
            {
                builder.OpenElement(3, "li");
                builder.AddContent(4, text);
                builder.CloseElement();
            }
            builder.CloseElement();
        };

    private static RenderFragment Table(string name, ImmutableArray<RecordRow> rows) =>
        builder =>
        {
            if (rows.IsEmpty)
            {
                return;
            }
            builder.OpenComponent<RecordTable>(0);
            builder.AddAttribute(1, nameof(RecordTable.Title), Texts.Get("record." + name));
            builder.AddAttribute(2, nameof(RecordTable.Rows), rows);
            builder.CloseComponent();
        };
}
