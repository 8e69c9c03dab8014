using Microsoft.AspNetCore.Components;

namespace Cogwright.Web.Pieces;

/// <summary>
/// A piece of a page that follows what happens elsewhere. Nobody waits for what it does then, so what fails there is shown as any
/// other error of the page.
/// </summary>
public abstract class FollowingPiece : ComponentBase, IDisposable
{
    private bool isGone;

    /// <summary>Does something because of what happened elsewhere.</summary>
    protected void Follow(Action work) =>
        Follow(() =>
        {
            work();
            return Task.CompletedTask;
        });

    /// <summary>Does something because of what happened elsewhere.</summary>
    protected void Follow(Func<Task> work) => _ = FollowAsync(work);

    /// <summary>Stops to listen: called once, when the piece goes.</summary>
    protected abstract void StopFollowing();

    private async Task FollowAsync(Func<Task> work)
    {
        try
        {
            if (!isGone)
            {
                await InvokeAsync(work).ConfigureAwait(true);
            }
        }
#pragma warning disable CA1031 // Whatever it is: the page shows that something went wrong.
        catch (Exception e)
#pragma warning restore CA1031
        {
            await DispatchExceptionAsync(e).ConfigureAwait(true);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (!isGone)
        {
            isGone = true;
            StopFollowing();
        }
        GC.SuppressFinalize(this);
    }
}
