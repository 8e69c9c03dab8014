using System.Collections.Immutable;
using Cogwright.Drivetrain.Bench;
using Cogwright.Files;
using Cogwright.Parts;
using Cogwright.Web.Parts;
using Microsoft.AspNetCore.Components;

namespace Cogwright.Web.Pages;

/// <summary>Whether the parts of the bike belong together, what would, and what comes of replacing one.</summary>
public sealed partial class PartsPage
{
    private const int MostFound = 30;
    private const int MostOptions = 30;

    // So long (ms) the page may stand still: less than a finger notices.
    private const int BreathMs = 40;

    private readonly HashSet<PartKind> open = [];
    private PartsOnBike? parts;
    private SpecSheet? partsOf;
    private PartLibrary? partsFrom;
    private BenchFit? partsFit;
    private PartKind? choosing;
    private string words = "";
    private PartTrial? trial;
    private bool inStock;
    private OptionProgress? looking;
    private OptionResult? result;
    private ImmutableArray<PartKind> asked = [];
    private CancellationTokenSource? ended;
    private ElementReference trialPlace;

    private static ImmutableArray<PartKind> Replaceable { get; } =
    [
        PartKind.Rings,
        PartKind.Cassette,
        PartKind.RearDerailleur,
        PartKind.Cage,
        PartKind.Chain,
        PartKind.RearShifter,
        PartKind.RearWheel,
        PartKind.Crank,
        PartKind.Hanger,
        PartKind.FrontDerailleur,
    ];

    /// <inheritdoc/>
    protected override async Task OnParametersSetAsync()
    {
        await base.OnParametersSetAsync().ConfigureAwait(true);
        await Shelf.ReadyAsync().ConfigureAwait(true);
        Look();
        // What is kept shows at once; what the shop has changed since comes when it comes.
        _ = RefreshAsync();
    }

    /// <inheritdoc/>
    protected override void OnBikeChanged() => Look();

    /// <inheritdoc/>
    protected override void StopFollowing()
    {
        ended?.Cancel();
        base.StopFollowing();
    }

    private static string Css(Compatibility answer) => answer.ToString().ToLowerInvariant();

    private async Task RefreshAsync()
    {
        await Shelf.RefreshAsync().ConfigureAwait(true);
        Follow(() =>
        {
            Look();
            StateHasChanged();
        });
    }

    /// <summary>Makes the answers anew when the bike or the library is another one.</summary>
    private void Look()
    {
        var sheet = Bench.History.Sheet;
        if (Bench.Id != Id)
        {
            // Another bike, or none yet: what was said of the one before must not stand under this one's name.
            (parts, partsOf, trial, result) = (null, null, null, null);
            ended?.Cancel();
            return;
        }
        // While it is computed, and where it was stopped, the answers do without.
        var fit = Bench.IsBehind ? null : Bench.AsSpec?.Fit;
        if (
            ReferenceEquals(sheet, partsOf)
            && ReferenceEquals(Shelf.Library, partsFrom)
            && ReferenceEquals(fit, partsFit)
        )
        {
            return;
        }
        (partsOf, partsFrom, partsFit) = (sheet, Shelf.Library, fit);
        parts = PartsOnBike.Of(sheet, Shelf.Library, fit);
        (trial, result) = (null, null);
        ended?.Cancel();
    }

    private void ChooseKind(PartKind kind) =>
        (choosing, words) = (choosing == kind ? null : kind, "");

    private void Toggle(PartKind kind)
    {
        if (!open.Remove(kind))
        {
            open.Add(kind);
        }
    }

    private async Task TryAsync(params Part[] chosen)
    {
        trial = parts?.Try(chosen);
        StateHasChanged();
        await Screen.RevealAsync(trialPlace).ConfigureAwait(true);
    }

    private async Task FitAsync()
    {
        if (trial is not { } thought)
        {
            return;
        }
        (trial, choosing) = (null, null);
        await Bench
            .ChangeAsync(
                sheet => thought.Parts.Aggregate(sheet, (now, part) => now.Fit(part)),
                Texts.Get(
                    "parts.change",
                    string.Join(", ", thought.Parts.Select(part => part.Name))
                )
            )
            .ConfigureAwait(true);
    }

    private Task AcceptAsync(Deviation deviation) =>
        Bench.ChangeAsync(
            sheet => sheet.Accept(deviation),
            Texts.Get("parts.changeAccepted", deviation.Reason, deviation.By)
        );

    private async Task LookAsync()
    {
        if (parts is not { } on)
        {
            return;
        }
        using var end = new CancellationTokenSource();
        ended = end;
        asked = [.. Replaceable.Where(open.Contains)];
        result = null;
        var question = on.Question(asked, inStock, MostOptions);
        var since = Environment.TickCount64;
        try
        {
            foreach (var step in OptionSearch.Steps(question, found => result = found, end.Token))
            {
                if (Environment.TickCount64 - since < BreathMs)
                {
                    continue;
                }
                looking = step;
                StateHasChanged();
                await Task.Delay(1, end.Token).ConfigureAwait(true);
                since = Environment.TickCount64;
            }
        }
        catch (OperationCanceledException)
        {
            // The mechanic or the next bike ended it.
            result = null;
        }
        finally
        {
            (looking, ended) = (null, null);
        }
    }
}
