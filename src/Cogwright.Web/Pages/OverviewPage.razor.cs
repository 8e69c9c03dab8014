using System.Globalization;
using Cogwright.Care;
using Cogwright.Facts;
using Cogwright.Setup.Jobs;
using Cogwright.Web.Device;
using Microsoft.AspNetCore.Components;

namespace Cogwright.Web.Pages;

/// <summary>The shop at a glance.</summary>
public sealed partial class OverviewPage
{
    private const int FewWaiting = 12;

    // Somebody who types is not asked for each letter.
    private static readonly TimeSpan Burst = TimeSpan.FromMilliseconds(200);

    private static readonly TimeSpan Counting = TimeSpan.FromSeconds(1);

    // A log that cannot be counted in is never done: the page asks more and more seldom.
    private static readonly TimeSpan LongestCounting = TimeSpan.FromMinutes(1);

    private OverviewShape? shop;
    private FoundShape? found;
    private TimeSpan counting = Counting;
    private string said = "";
    private string searchSaid = "";
    private string words = "";
    private string planKind = "";
    private string planHours = "";
    private string planSaid = "";
    private int shownWaiting = FewWaiting;
    private int typed;
    private bool isPlanning;
    private bool isBusy;
    private bool isLookingAgain;
    private bool isGone;

    /// <inheritdoc/>
    protected override Task OnInitializedAsync() => ReadAsync();

    // What this device has sent or was sent has changed something there.
    /// <inheritdoc/>
    protected override Task OnDeviceChangedAsync() =>
        Courier.IsBusy ? Task.CompletedTask : ReadAsync();

    private async Task ReadAsync()
    {
        try
        {
            shop = await Shop.OverviewAsync().ConfigureAwait(true);
            said = "";
            if (shop.Behind > 0)
            {
                Follow(LookAgainAsync);
            }
            else
            {
                counting = Counting;
            }
            if (planKind.Length == 0 && shop.Plan is [var first, ..])
            {
                PickPlan(first.Kind);
            }
        }
        catch (ShopException e)
        {
            said = Said(e);
        }
    }

    /// <summary>The server is still counting: asked again a little later, by one at a time.</summary>
    private async Task LookAgainAsync()
    {
        if (isLookingAgain)
        {
            return;
        }
        isLookingAgain = true;
        await Task.Delay(counting).ConfigureAwait(true);
        counting = counting * 2 < LongestCounting ? counting * 2 : LongestCounting;
        isLookingAgain = false;
        if (!isGone)
        {
            await ReadAsync().ConfigureAwait(true);
            StateHasChanged();
        }
    }

    /// <inheritdoc/>
    protected override void StopFollowing()
    {
        isGone = true;
        base.StopFollowing();
    }

    private static string Said(ShopException e) =>
        e.Fault switch
        {
            ShopFault.Gone => Texts.Get("overview.gone"),
            ShopFault.LogIn => Texts.Get("overview.logIn"),
            _ => e.Message,
        };

    private Task Typed(ChangeEventArgs change)
    {
        words = change.Value as string ?? "";
        return FindAsync(Burst.Milliseconds);
    }

    /// <summary>The last question alone is answered.</summary>
    private async Task FindAsync(int wait)
    {
        var mine = ++typed;
        await Task.Delay(wait).ConfigureAwait(true);
        if (mine != typed)
        {
            return;
        }
        searchSaid = "";
        if (string.IsNullOrWhiteSpace(words))
        {
            found = null;
            return;
        }
        try
        {
            var answer = await Shop.FindAsync(words).ConfigureAwait(true);
            if (mine == typed)
            {
                found = answer;
            }
        }
        catch (ShopException e) when (mine == typed)
        {
            found = null;
            searchSaid = Said(e);
        }
        catch (ShopException)
        {
            // Another question was asked since: its answer counts.
        }
    }

    private void PickPlan(string? kind)
    {
        planKind = kind ?? "";
        planHours = shop?.Plan.FirstOrDefault(each => each.Kind == planKind) is { IsOwn: true } own
            ? Hours(own.Hours)
            : "";
    }

    private async Task PlanAsync()
    {
        var text = planHours.Trim().Replace(',', '.');
        double? hours = null;
        if (text.Length > 0)
        {
            if (
                !double.TryParse(
                    text,
                    NumberStyles.AllowDecimalPoint,
                    CultureInfo.InvariantCulture,
                    out var number
                )
                || number <= 0
            )
            {
                planSaid = Texts.Get("overview.planBad", text);
                return;
            }
            hours = number;
        }
        (isBusy, planSaid) = (true, "");
        try
        {
            await Shop.PlanAsync(planKind, hours).ConfigureAwait(true);
            await ReadAsync().ConfigureAwait(true);
        }
        catch (ShopException e)
        {
            planSaid = Said(e);
        }
        finally
        {
            isBusy = false;
        }
    }

    private static string Link(ListedShape job) =>
        job.Job.Length == 0 ? $"bike/{job.Bike}"
        : job.Closed is null ? $"bike/{job.Bike}/job"
        : $"bike/{job.Bike}/record/{job.Job}";

    private static string Name(ListedShape job) =>
        job.Name.Length > 0 ? job.Name : Texts.Get("storage.noName");

    private static string State(ListedShape job) =>
        job.Job.Length == 0 ? Texts.Get("overview.noJob")
        : job.Closed is { } closed ? Texts.Get("overview.closed", Day(closed))
        : Stage(job.Stage);

    // A stage or kind of a later server is shown as it names it.
    private static string Stage(string name) =>
        JobNames.Find<JobStage>(name) is { } stage ? JobStages.TitleOf(stage) : name;

    private static string Due(ListedShape job) =>
        JobNames.Find<CareKind>(job.Due) is { } kind
            ? Texts.Get("overview.due.of", CareDue.Title(kind))
            : job.Due;

    private static string Count(IEnumerable<StandingShape> standing) =>
        standing.Sum(each => each.Jobs) is > 0 and var jobs
            ? jobs.ToString(CultureInfo.InvariantCulture)
            : "";

    private static string Hours(double hours) =>
        hours.ToString("0.0#", CultureInfo.InvariantCulture);

    private static string Day(DateTimeOffset time) =>
        time.ToLocalTime().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Since(DateTimeOffset last, DateTimeOffset now) =>
        (now - last) switch
        {
            { TotalHours: < 1 } => Texts.Get("overview.lately"),
            { TotalDays: < 2 } and var gap => Texts.Get("overview.hours", (int)gap.TotalHours),
            var gap => Texts.Get("overview.days", (int)gap.TotalDays),
        };
}
