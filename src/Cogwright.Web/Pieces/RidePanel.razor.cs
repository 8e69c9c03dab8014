using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Drivetrain;
using Cogwright.Files;
using Cogwright.Gearing;
using Cogwright.Parts;
using Cogwright.Web.Bikes;
using Cogwright.Web.Parts;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;

namespace Cogwright.Web.Pieces;

/// <content>What is asked, and how it is worked out without holding up the page.</content>
public sealed partial class RidePanel
{
    // A step of the work is some milliseconds: after this long the page breathes.
    private const int BreathMs = 40;
    private const int MostShown = 20;

    private const long MostFileBytes = 100_000_000;

    private string massText = "";
    private string powerText = "";
    private string lowText = "60";
    private string highText = "100";
    private string windText = "";
    private string windFromText = "";
    private string profile = "";
    private RidingPosition position = RidingPosition.Hoods;
    private RoadSurface surface = RoadSurface.SmoothAsphalt;
    private Route? track;
    private ImmutableArray<string> remarks = [];
    private ImmutableArray<string> wrong = [];
    private string? said;
    private RideResult? result;
    private RideSets? sets;
    private Route? ridden;
    private CancellationTokenSource? ending;

    /// <summary>The tyre of the driven wheel.</summary>
    [Parameter, EditorRequired]
    public required Tyre Tyre { get; set; }

    /// <summary>The bike beside this one, or null.</summary>
    [Parameter]
    public DrivetrainSpec? Other { get; set; }

    private static CultureInfo Invariant => CultureInfo.InvariantCulture;

    /// <inheritdoc/>
    public void Dispose() => ending?.Cancel();

    private async Task ReadAsync(InputFileChangeEventArgs picked)
    {
        if (ending is not null)
        {
            return;
        }
        (track, remarks, wrong, result) = (null, [], [], null);
        if (picked.File.Size > MostFileBytes)
        {
            wrong =
            [
                Texts.Get(
                    "intake.tooLarge",
                    picked.File.Name,
                    picked.File.Size / 1e6,
                    MostFileBytes / 1e6
                ),
            ];
            return;
        }
        await DoAsync(async end =>
            {
                using var kept = new MemoryStream();
                await using (var stream = picked.File.OpenReadStream(MostFileBytes, end))
                {
                    await stream.CopyToAsync(kept, end).ConfigureAwait(true);
                }
                kept.Position = 0;
                TrackReading? reading = null;
                await StepAsync(
                        GpxReader.Steps(kept, picked.File.Name, found => reading = found, end),
                        points => Texts.Get("ride.reading", points),
                        end
                    )
                    .ConfigureAwait(true);
                remarks = [.. reading!.Problems.Select(problem => problem.ToString())];
                if (reading.Track is { } read)
                {
                    track = TrackRoad.Of(read);
                }
                else
                {
                    wrong = remarks;
                }
            })
            .ConfigureAwait(true);
    }

    private Task RideAsync(bool withParts) =>
        DoAsync(async end =>
        {
            (wrong, result, sets) = ([], null, null);
            if (Bench.AsSpec is not { } bike || RouteOf() is not { } route)
            {
                return;
            }
            // Of the rider first: what is wrong there is told before a long search.
            var (rider, wind) = (RiderOf(), WindOf(route));
            var found = withParts ? await SetsAsync(bike, end).ConfigureAwait(true) : null;
            var question = new RideQuestion
            {
                Route = route,
                Rider = rider,
                Wind = wind,
                Tyre = Tyre,
                Present = SpecGears.Of(bike.Spec),
                Candidates =
                [
                    .. Other is null
                        ? []
                        : new[] { new RideCandidate(Other.Name, SpecGears.Of(Other)) },
                    .. found?.Sets.Select(set => set.Candidate) ?? [],
                ],
            };
            await StepAsync(
                    RideStudy.Steps(
                        question,
                        ridden => (result, this.ridden, sets) = (ridden, route, found),
                        end
                    ),
                    step => Texts.Get("ride.riding", 100.0 * step.Done / step.All),
                    end
                )
                .ConfigureAwait(true);
        });

    /// <summary>What the library's rings and cassettes would make of the bike: those alone that belong together with it.</summary>
    private async Task<RideSets?> SetsAsync(ComputedBike bike, CancellationToken end)
    {
        await Library.ReadyAsync().ConfigureAwait(true);
        if (PartsOnBike.Of(Bench.History.Sheet, Library.Library, bike.Fit) is not { } parts)
        {
            wrong = [Texts.Get("ride.specErrors")];
            return null;
        }
        var question = parts.RideQuestion();
        OptionResult? options = null;
        await StepAsync(
                OptionSearch.Steps(question, found => options = found, end),
                step => Texts.Get("ride.looking", step.Seen, step.All),
                end
            )
            .ConfigureAwait(true);
        return RideSets.Of(question, options!, bike.Spec.Chain.Pitches);
    }

    private string NameOf(RideCandidate candidate) =>
        SetOf(candidate) is { } set ? RideSets.NameOf(set.Option.Build) : candidate.Id;

    private RideSet? SetOf(RideCandidate candidate) =>
        sets?.Sets.FirstOrDefault(set => ReferenceEquals(set.Candidate, candidate));

    private Route? RouteOf()
    {
        if (track is not null)
        {
            return track;
        }
        if (string.IsNullOrWhiteSpace(profile))
        {
            wrong = [Texts.Get("ride.noRoad")];
            return null;
        }
        var reading = ProfileReader.Read(profile, Texts.Get("ride.typed"));
        remarks = [.. reading.Problems.Select(problem => problem.ToString())];
        if (reading.Route is null)
        {
            wrong = remarks;
        }
        return reading.Route;
    }

    private Rider RiderOf() =>
        new Rider
        {
            Load = new()
            {
                MassKg = Read("mass", massText),
                DragAreaM2 = RoadPractice.DragAreaM2(position),
                RollingCoefficient = RoadPractice.RollingCoefficient(surface),
                TyreRadiusM = Math.Clamp(Tyre.RadiusM, 0.1, 0.6),
            },
            Power = PowerPlan.Steady(Read("power", powerText)),
            LowRpm = Read("low", lowText),
            HighRpm = Read("high", highText),
        }.Checked();

    private Wind WindOf(Route route)
    {
        if (string.IsNullOrWhiteSpace(windText))
        {
            return default;
        }
        var speed = Read("wind", windText);
        return route.CoursesRad.IsEmpty
            ? new(Math.Abs(speed), speed < 0 ? Math.PI : 0)
            : new(speed, Math.IEEERemainder(Read("windFrom", windFromText), 360) * Math.PI / 180);
    }

    private static double Read(string what, string text) =>
        double.TryParse(
            text.Trim().Replace(',', '.'),
            NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
            Invariant,
            out var number
        )
            ? number
            : throw new ImpossibleInputException(
                what,
                Texts.Get("ride.noNumber", Texts.Get("ride." + what), text)
            );

    private async Task DoAsync(Func<CancellationToken, Task> what)
    {
        if (ending is not null)
        {
            return;
        }
        using var end = new CancellationTokenSource();
        ending = end;
        try
        {
            await what(end.Token).ConfigureAwait(true);
        }
        catch (ImpossibleInputException refused)
        {
            wrong = [refused.Message];
        }
        catch (IOException broken)
        {
            wrong = [Texts.Get("ride.broken", broken.Message)];
        }
        catch (OperationCanceledException)
        {
            // The rider ended it, or left the page.
            result = null;
        }
        finally
        {
            (ending, said) = (null, null);
        }
    }

    private async Task StepAsync<T>(
        IEnumerable<T> steps,
        Func<T, string> words,
        CancellationToken end
    )
    {
        var since = Environment.TickCount64;
        foreach (var step in steps)
        {
            if (Environment.TickCount64 - since < BreathMs)
            {
                continue;
            }
            said = words(step);
            StateHasChanged();
            await Task.Delay(1, end).ConfigureAwait(true);
            since = Environment.TickCount64;
        }
    }

    private IEnumerable<string> SaidOf(RideResult ride, Route route) =>
        [
            .. RideWords.Road(ride, route),
            .. remarks,
            .. route.Notes.Select(note => note.Message),
            .. RideWords.Time(ride),
            RideWords.Steepest(ride),
            .. RideWords.Gears(ride.Present),
        ];

    private static string ShareOf(RideAnswer answer, GearTeeth teeth) =>
        answer.Gears.FirstOrDefault(gear => gear.Teeth == teeth) is { Seconds: > 0 } gear
            ? Percent(gear.Share)
            : "–";

    private static string Percent(double share) => (share * 100).ToString("0.0", Invariant);

    private static string Number(RideFigure figure) =>
        figure.Value?.ToString($"F{figure.Decimals}", Invariant) ?? "–";

    private static string Change(RideFigure figure) =>
        figure.Change?.ToString(figure.Decimals == 0 ? "+0;−0;±0" : "+0.0;−0.0;±0.0", Invariant)
        ?? "";
}
