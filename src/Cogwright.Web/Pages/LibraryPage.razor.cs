using System.Collections.Immutable;
using Cogwright.Files;
using Cogwright.Web.Parts;
using Microsoft.AspNetCore.Components.Forms;

namespace Cogwright.Web.Pages;

/// <summary>The shop's library of parts: found, looked at, imported with a preview.</summary>
public sealed partial class LibraryPage
{
    private const int MostFound = 50;

    private string words = "";
    private string kindName = "";
    private string? shown;
    private ImportPreview? preview;
    private int? reading;
    private ImportProgress? progress;
    private string refused = "";
    private string said = "";
    private ImmutableArray<NamedParts>? naming;
    private string demoRefused = "";
    private CancellationTokenSource? ended;

    /// <inheritdoc/>
    protected override async Task OnInitializedAsync()
    {
        Shelf.Changed += Show;
        await Shelf.ReadyAsync().ConfigureAwait(true);
        _ = Shelf.RefreshAsync();
    }

    /// <inheritdoc/>
    protected override void StopFollowing()
    {
        ended?.Cancel();
        Shelf.Changed -= Show;
    }

    private void Show() => Follow(StateHasChanged);

    private async Task ReadAsync(InputFileChangeEventArgs e)
    {
        (refused, said, preview) = ("", "", null);
        if (e.File.Size > PartsReader.MostBytes)
        {
            refused = Texts.Get(
                "intake.tooLarge",
                e.File.Name,
                e.File.Size / 1e6,
                PartsReader.MostBytes / 1e6
            );
            return;
        }
        // Another file in the place of one that is still being read.
        ended?.Cancel();
        using var end = new CancellationTokenSource();
        ended = end;
        reading = 0;
        try
        {
            await using var stream = e.File.OpenReadStream(PartsReader.MostBytes, end.Token);
            using var kept = new MemoryStream();
            await stream.CopyToAsync(kept, end.Token).ConfigureAwait(true);
            var coming = await Shelf
                .PreviewAsync(kept.ToArray(), e.File.Name, ShowReadingAsync, end.Token)
                .ConfigureAwait(true);
            preview = ended == end ? coming : preview;
        }
        catch (OperationCanceledException)
        {
            said = ended == end ? Texts.Get("library.notRead", e.File.Name) : said;
        }
        catch (IOException fault)
        {
            refused = Texts.Get("storage.notRead", e.File.Name, fault.Message);
        }
        finally
        {
            if (ended == end)
            {
                (reading, ended) = (null, null);
            }
        }

        async Task ShowReadingAsync(int done)
        {
            if (ended == end)
            {
                reading = done;
                StateHasChanged();
            }
            await Task.Delay(1, end.Token).ConfigureAwait(true);
        }
    }

    private async Task ImportAsync()
    {
        if (preview is not { } seen)
        {
            return;
        }
        using var end = new CancellationTokenSource();
        ended = end;
        (progress, refused, said) = (default(ImportProgress), "", "");
        try
        {
            var how = await Shelf
                .ImportAsync(
                    seen,
                    new Progress<ImportProgress>(step =>
                    {
                        progress = step;
                        StateHasChanged();
                    }),
                    end.Token
                )
                .ConfigureAwait(true);
            said = how switch
            {
                ImportEnd.Stored => Texts.Get("library.stored"),
                ImportEnd.NotKnown => Texts.Get("library.notKnown"),
                _ => Texts.Get(
                    end.IsCancellationRequested ? "library.cancelled" : "parts.importBroken"
                ),
            };
            preview = how == ImportEnd.Stored ? null : Shelf.Again(seen);
        }
        catch (HttpRequestException e)
        {
            // What would change now, with the library as it is now.
            (refused, preview) = (Texts.Get("library.refused", e.Message), Shelf.Again(seen));
        }
        finally
        {
            (progress, ended) = (null, null);
        }
    }

    private async Task AskDemoAsync() =>
        naming = await NamedParts.OnAsync(Bikes, Shelf.DemoParts).ConfigureAwait(true);

    private async Task SetDemoAsync(bool there)
    {
        (naming, demoRefused) = (null, "");
        try
        {
            await Shelf.SetDemoAsync(there).ConfigureAwait(true);
        }
        catch (Exception e) when (e is HttpRequestException or OperationCanceledException)
        {
            demoRefused = e is HttpRequestException { StatusCode: not null }
                ? Texts.Get("library.demoRefused", e.Message)
                : Texts.Get("library.demoAway");
        }
    }
}
