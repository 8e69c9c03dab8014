using Cogwright.Web.Bikes;
using Cogwright.Web.Pieces;
using Microsoft.AspNetCore.Components;

namespace Cogwright.Web.Jobs;

/// <summary>A piece of a page about the work on the bike on the stand.</summary>
public abstract class JobPiece : DevicePiece
{
    [Inject]
    private protected JobDesk Desk { get; init; } = null!;

    [Inject]
    private protected Workbench Bench { get; init; } = null!;

    /// <inheritdoc/>
    protected override void OnInitialized()
    {
        base.OnInitialized();
        Bench.Changed += ShowBike;
    }

    /// <inheritdoc/>
    protected override void StopFollowing()
    {
        base.StopFollowing();
        Bench.Changed -= ShowBike;
    }

    private void ShowBike() => Follow(StateHasChanged);
}
