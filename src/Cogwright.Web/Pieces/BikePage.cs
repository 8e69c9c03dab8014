using Cogwright.Web.Bikes;
using Microsoft.AspNetCore.Components;

namespace Cogwright.Web.Pieces;

/// <summary>A page about the bike on the stand: puts the bike of its address there, and shows itself anew when that changes.</summary>
public abstract class BikePage : ComponentBase, IDisposable
{
    /// <summary>The stand.</summary>
    [Inject]
    public required Workbench Bench { get; init; }

    /// <summary>Where the browser is.</summary>
    [Inject]
    public required NavigationManager Navigation { get; init; }

    /// <summary>Id of the bike.</summary>
    [Parameter]
    public required string Id { get; set; }

    /// <summary>Whether the bike was looked for and is not there.</summary>
    protected bool IsMissing { get; private set; }

    /// <inheritdoc/>
    protected override async Task OnParametersSetAsync() =>
        IsMissing = Id != Bench.Id && !await Bench.OpenAsync(Id).ConfigureAwait(true);

    /// <inheritdoc/>
    protected override void OnInitialized() => Bench.Changed += Refresh;

    /// <summary>Called when something about the bike has changed.</summary>
    protected virtual void OnBikeChanged() { }

    private void Refresh() =>
        InvokeAsync(() =>
        {
            // It has come from another device or tab meanwhile.
            IsMissing = IsMissing && Bench.Id != Id;
            // The first change of a demo bike makes a bike of one's own: the address follows.
            if (Bench.Id is { } now && now != Id && !IsMissing)
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
    public void Dispose()
    {
        Bench.Changed -= Refresh;
        GC.SuppressFinalize(this);
    }
}
