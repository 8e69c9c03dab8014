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
    private string fileName = "";
    private string fileText = "";
    private PartImport? preview;
    private ImportProgress? progress;
    private string refused = "";
    private string said = "";
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
        (fileName, refused, said, preview) = (e.File.Name, "", "", null);
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
        using var stream = e.File.OpenReadStream(PartsReader.MostBytes);
        using var text = new StreamReader(stream);
        fileText = await text.ReadToEndAsync().ConfigureAwait(true);
        preview = Shelf.Preview(fileText, fileName);
    }

    private async Task ImportAsync()
    {
        using var end = new CancellationTokenSource();
        ended = end;
        (progress, refused) = (default(ImportProgress), "");
        try
        {
            await Shelf
                .ImportAsync(
                    fileText,
                    fileName,
                    new Progress<ImportProgress>(step =>
                    {
                        progress = step;
                        StateHasChanged();
                    }),
                    end.Token
                )
                .ConfigureAwait(true);
            (preview, said) = (null, Texts.Get("library.stored"));
        }
        catch (OperationCanceledException)
        {
            said = Texts.Get("library.cancelled");
        }
        catch (HttpRequestException e)
        {
            refused = Texts.Get("library.refused", e.Message);
        }
        finally
        {
            (progress, ended) = (null, null);
        }
    }
}
