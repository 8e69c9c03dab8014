using Cogwright.Facts;
using Cogwright.Setup.Jobs;
using Cogwright.Web.Jobs;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;

namespace Cogwright.Web.Pages;

/// <content>What is done on the page.</content>
public sealed partial class JobPage
{
    private readonly HashSet<string> opened = [];
    private readonly List<string> strays = [];
    private DotNetObjectReference<JobPage>? self;
    private IJSObjectReference? module;
    private IJSObjectReference? ear;
    private StepCard? card;
    private ElementReference stepTop;
    private StepPlace? chosen;
    private string title = "";
    private bool isBusy;
    private bool goesToStep;

    /// <summary>The step that is shown: the one that was chosen, else the next one, else the last one done.</summary>
    private StepPlace? Place =>
        chosen is { } place && place.Run < Jobs.Work.Runs.Length ? place
        : Jobs.Open is { } job
            ? Jobs.Review.NextOf(job.Id)
                ?? Jobs.Review.FirstBlockedOf(job.Id)
                ?? Jobs.Review.LastVerifiedOf(job.Id)
        : null;

    /// <summary>A reading arrived.</summary>
    /// <param name="text">As typed or sent.</param>
    /// <param name="token">What the armed field stood for, or null when none was armed.</param>
    [JSInvokable]
    public async Task Arrived(string text, string? token)
    {
        if (card is { } at && token == at.Token)
        {
            await at.ArrivedAsync(text);
        }
        else
        {
            strays.Add(text.Trim());
        }
        StateHasChanged();
    }

    /// <inheritdoc/>
    protected override void OnInitialized()
    {
        base.OnInitialized();
        Bikes.Changed += ShowWork;
    }

    /// <inheritdoc/>
    protected override void StopFollowing()
    {
        base.StopFollowing();
        Bikes.Changed -= ShowWork;
    }

    private void ShowWork(string? bike)
    {
        if ((bike ?? Bench.Id) == Bench.Id)
        {
            Follow(StateHasChanged);
        }
    }

    /// <inheritdoc/>
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (firstRender)
        {
            module = await Js.InvokeAsync<IJSObjectReference>("import", "./js/reading.js");
            self = DotNetObjectReference.Create(this);
            ear = await module.InvokeAsync<IJSObjectReference>("listen", self);
        }
        if (goesToStep && stepTop.Context is not null && module is not null)
        {
            goesToStep = false;
            await module.InvokeVoidAsync("show", stepTop);
        }
    }

    private static bool IsGo(Job job) =>
        job.Intake.GetValueOrDefault(IntakeFields.Inspection) == IntakeFields.Go;

    private static string Day(long utcTicks) =>
        new DateTime(utcTicks, DateTimeKind.Utc)
            .ToLocalTime()
            .ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    private bool Is(string name) => opened.Contains(name);

    private void Toggle(string name)
    {
        if (!opened.Remove(name))
        {
            opened.Add(name);
        }
    }

    private void Show(StepPlace place)
    {
        chosen = place;
        goesToStep = true;
    }

    /// <summary>The step is done: the next one is shown, unless there is something to read about this one.</summary>
    private void GoOn(StepPlace done)
    {
        chosen = Jobs.Open is { } job ? Jobs.Review.NextOf(job.Id) ?? done : done;
        goesToStep = true;
    }

    private void OnBegun()
    {
        opened.Remove("procedure");
        chosen = null;
        goesToStep = true;
    }

    private async Task TakeTypedAsync()
    {
        if (ear is not null)
        {
            await ear.InvokeVoidAsync("take");
        }
    }

    private async Task PlaceStrayAsync(string text)
    {
        if (card is { } at && await at.ArrivedAsync(text))
        {
            strays.Remove(text);
        }
    }

    private Task BeginAsync() =>
        string.IsNullOrWhiteSpace(title)
            ? Task.CompletedTask
            : DoAsync(async () =>
            {
                await Jobs.AddAsync(JobEntry.Begin(title.Trim()));
                title = "";
            });

    private Task ReachAsync(Job job, JobStage stage) =>
        DoAsync(() => Jobs.AddAsync(JobEntry.Stage(job.Id, stage)));

    private async Task DoAsync(Func<Task> what)
    {
        if (isBusy)
        {
            return;
        }
        isBusy = true;
        try
        {
            await what();
        }
        finally
        {
            isBusy = false;
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        Dispose();
        if (ear is not null)
        {
            await ear.InvokeVoidAsync("stop");
            await ear.DisposeAsync();
        }
        if (module is not null)
        {
            await module.DisposeAsync();
        }
        self?.Dispose();
    }
}
