using Cogwright.Web.Bikes;
using Cogwright.Web.Measuring;
using Microsoft.AspNetCore.Components;

namespace Cogwright.Web.Pieces;

/// <summary>A page about the bike on the stand: puts the bike of its address there, and shows itself anew when that changes.</summary>
public abstract class BikePage : FollowingPiece
{
    /// <summary>The stand.</summary>
    [Inject]
    public required Workbench Bench { get; init; }

    /// <summary>Where the bikes are kept.</summary>
    [Inject]
    public required IBikeShelf Bikes { get; init; }

    /// <summary>The rounds at the bench.</summary>
    [Inject]
    public required MeasuringDesk Desk { get; init; }

    /// <summary>Where the browser is.</summary>
    [Inject]
    public required NavigationManager Navigation { get; init; }

    /// <summary>Id of the bike.</summary>
    [Parameter]
    public required string Id { get; set; }

    /// <summary>Whether the bike was looked for and is not there.</summary>
    protected bool IsMissing { get; private set; }

    /// <summary>Why it is missing, and what to do.</summary>
    protected string MissingSaid => Texts.Get(Bikes.IsUnread(Id) ? "bike.unread" : "bike.missing");

    /// <inheritdoc/>
    protected override async Task OnParametersSetAsync()
    {
        IsMissing = Id != Bench.Id && !await Bench.OpenAsync(Id).ConfigureAwait(true);
        if (Bench.Id == Id && Bench.OpenedAs is { } from)
        {
            // The first change of a demo bike made this one of it: what was read at the bench is of the same bike.
            await Desk.FollowAsync(from, Id).ConfigureAwait(true);
        }
    }

    /// <inheritdoc/>
    protected override void OnInitialized()
    {
        Bench.Changed += Refresh;
        Bikes.Changed += LookAgain;
    }

    /// <summary>Called when something about the bike has changed.</summary>
    protected virtual void OnBikeChanged() { }

    // It may have come from another device meanwhile.
    private void LookAgain(string? changed)
    {
        if (IsMissing && (changed ?? Id) == Id)
        {
            Follow(async () =>
            {
                await OnParametersSetAsync().ConfigureAwait(true);
                StateHasChanged();
            });
        }
    }

    private void Refresh() =>
        Follow(() =>
        {
            IsMissing = IsMissing && Bench.Id != Id;
            // The first change of a demo bike makes a bike of one's own: the address follows.
            if (Bench.Id is { } now && now != Id && Bench.OpenedAs == Id)
            {
                Navigation.NavigateTo(
                    Navigation.Uri.Replace($"/bike/{Id}", $"/bike/{now}", StringComparison.Ordinal),
                    replace: true
                );
                return;
            }
            OnBikeChanged();
            StateHasChanged();
        });

    /// <inheritdoc/>
    protected override void StopFollowing()
    {
        Bench.Changed -= Refresh;
        Bikes.Changed -= LookAgain;
    }
}
