using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Cogwright.Cli.Commands;
using Cogwright.Cli.Output;
using Cogwright.Files;
using Cogwright.Gearing;
using Cogwright.Parts;
using Spectre.Console;

namespace Cogwright.Cli;

/// <summary>Rider and road as the options of <c>ride</c> give them.</summary>
internal static partial class RideOptions
{
    private const double OneGradientM = 5000;
    private const double Rad = Math.PI / 180;

    /// <summary>Coefficients that nobody measured: names of options with what was taken.</summary>
    internal static IEnumerable<(string Option, string Value)> Assumed(RideSettings settings)
    {
        if (settings.Tyre is null)
        {
            yield return ("--tyre", GearSets.AssumedTyre);
        }
        if (settings.DragArea is null)
        {
            var position = Position(settings);
            yield return (
                "--drag-area",
                Texts.Get("ride.area", RoadPractice.DragAreaM2(position), NameOf(position))
            );
        }
        if (settings.Rolling is null)
        {
            var surface = Surface(settings);
            yield return (
                "--rolling",
                Texts.Get(
                    "ride.coefficient",
                    RoadPractice.RollingCoefficient(surface),
                    NameOf(surface)
                )
            );
        }
    }

    /// <summary>The rider.</summary>
    /// <exception cref="BadInputException">An option is missing or cannot be.</exception>
    internal static Rider Rider(RideSettings settings, Tyre tyre)
    {
        if (settings.Mass is null || settings.Power is null)
        {
            throw new BadInputException(
                Texts.Get("ride.needed", settings.Mass is null ? "--mass" : "--power")
            );
        }
        var (low, high) = Cadence(settings.Cadence);
        if (settings.DragArea is not null && settings.Position is not null)
        {
            throw new BadInputException(Texts.Get("ride.both", "--drag-area", "--position"));
        }
        if (settings.Rolling is not null && settings.Surface is not null)
        {
            throw new BadInputException(Texts.Get("ride.both", "--rolling", "--surface"));
        }
        return new Rider
        {
            Load = new()
            {
                MassKg = Number("--mass", settings.Mass),
                DragAreaM2 = settings.DragArea is { } area
                    ? Number("--drag-area", area)
                    : RoadPractice.DragAreaM2(Position(settings)),
                RollingCoefficient = settings.Rolling is { } rolling
                    ? Number("--rolling", rolling)
                    : RoadPractice.RollingCoefficient(Surface(settings)),
                TyreRadiusM = Math.Clamp(tyre.RadiusM, 0.1, 0.6),
            },
            Power = Power(settings, settings.Power),
            LowRpm = low,
            HighRpm = high,
            WantedRpm = settings.Want is { } want ? Number("--want", want) : null,
            TopSpeedMs = settings.TopSpeed is { } top ? Number("--top-speed", top) / 3.6 : 60 / 3.6,
            AvoidsAcross = settings.AvoidAcross,
        }.Checked();
    }

    /// <summary>The kinds of part that the library is asked for; none when it is not asked.</summary>
    /// <exception cref="BadInputException">A kind has nothing to do with gears, or an option about parts stands without them.</exception>
    internal static ImmutableArray<PartKind> Replaced(RideSettings settings)
    {
        if (settings.Replace is null)
        {
            return (settings.InStock, settings.MostText) switch
            {
                (true, _) => throw new BadInputException(
                    Texts.Get("ride.sets.without", "--in-stock")
                ),
                (_, not null) => throw new BadInputException(
                    Texts.Get("ride.sets.without", "--most")
                ),
                _ => [],
            };
        }
        if (settings.Most < 1)
        {
            throw new BadInputException(Texts.Get("expected.most"));
        }
        var kinds = PartFiles.Kinds("--replace", settings.Replace);
        var others = kinds.Except(RideSets.Kinds).Select(PartKinds.NameOf).ToList();
        return others.Count == 0
            ? [.. RideSets.Kinds.Where(kinds.Contains)]
            : throw new BadInputException(Texts.Get("ride.sets.kinds", string.Join(", ", others)));
    }

    /// <summary>The same load with what is assumed at its easiest and at its hardest.</summary>
    internal static (RoadLoad Easier, RoadLoad Harder) Spread(RideSettings settings, RoadLoad load)
    {
        var area = settings.DragArea is null ? RoadPractice.DragAreaSpread : 0;
        var (least, most) = settings.Rolling is null
            ? RoadPractice.RollingSpread(Surface(settings))
            : (load.RollingCoefficient, load.RollingCoefficient);
        return (
            load with
            {
                DragAreaM2 = load.DragAreaM2 * (1 - area),
                RollingCoefficient = least,
            },
            load with
            {
                DragAreaM2 = load.DragAreaM2 * (1 + area),
                RollingCoefficient = most,
            }
        );
    }

    /// <summary>The road; when its file cannot be used, says why and gives null.</summary>
    /// <exception cref="BadInputException">There is none or several, or an option cannot be.</exception>
    internal static (Route Route, IReadOnlyList<FileProblem> Remarks)? Road(
        RideSettings settings,
        IAnsiConsole console,
        SlowWork work,
        CancellationToken cancellation
    )
    {
        var given = new[] { settings.RoutePath, settings.Profile, settings.Gradient };
        if (given.Count(each => each is not null) != 1)
        {
            throw new BadInputException(Texts.Get("ride.road"));
        }
        if (settings.Gradient is { } gradient)
        {
            var percent = Number("--gradient", gradient);
            return (
                Route.OfGradient(
                    Texts.Get("ride.oneGradient", percent),
                    percent / 100,
                    OneGradientM
                ),
                []
            );
        }
        if (settings.Profile is { } profile)
        {
            return
                Typed(ProfileReader.Read(profile, "--profile"), settings, console) is { } typedRoad
                ? (typedRoad.Route with { Name = profile.Trim() }, typedRoad.Remarks)
                : null;
        }
        using var stream = InputFile.Open(settings.RoutePath!);
        if (!IsMarkup(stream))
        {
            if (stream.Length > 1_000_000)
            {
                throw new BadInputException(Texts.Get("ride.noRoad", settings.RoutePath));
            }
            using var text = new StreamReader(stream);
            return Typed(
                ProfileReader.Read(text.ReadToEnd(), settings.RoutePath!),
                settings,
                console
            );
        }
        var reading = GpxReader.Read(
            stream,
            settings.RoutePath!,
            work.Of<int>(points => Texts.Get("ride.progress.track", points)),
            cancellation
        );
        if (reading.Track is not { } track)
        {
            ProblemReport.Write(console, reading.Problems, settings.Json);
            return null;
        }
        var window = settings.Window is { } typed
            ? Number("--window", typed)
            : TrackRoad.UsualWindowM;
        return (TrackRoad.Of(track, window), reading.Problems);
    }

    /// <summary>The wind.</summary>
    /// <exception cref="BadInputException">It cannot be, or where it comes from does not go with the road.</exception>
    internal static Wind Wind(RideSettings settings, Route route)
    {
        if (settings.WindSpeed is null)
        {
            return settings.WindFrom is null
                ? default
                : throw new BadInputException(Texts.Get("ride.windSpeed"));
        }
        var speed = Number("--wind", settings.WindSpeed);
        if (route.CoursesRad.IsEmpty)
        {
            return settings.WindFrom is null
                ? new(Math.Abs(speed), speed < 0 ? Math.PI : 0)
                : throw new BadInputException(Texts.Get("ride.windFromTyped"));
        }
        if (settings.WindFrom is not { } from)
        {
            throw new BadInputException(Texts.Get("ride.windFrom"));
        }
        return new(speed, Math.IEEERemainder(Number("--wind-from", from), 360) * Rad);
    }

    private static (Route Route, IReadOnlyList<FileProblem> Remarks)? Typed(
        ProfileReading reading,
        RideSettings settings,
        IAnsiConsole console
    )
    {
        if (settings.Window is not null)
        {
            throw new BadInputException(Texts.Get("ride.windowTyped"));
        }
        if (reading.Route is { } route)
        {
            return (route, reading.Problems);
        }
        ProblemReport.Write(console, reading.Problems, settings.Json);
        return null;
    }

    /// <summary>Whether a file begins like XML: with a tag, after a byte-order mark and blanks.</summary>
    private static bool IsMarkup(FileStream stream)
    {
        var start = new byte[64];
        var length = stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false);
        stream.Position = 0;
        foreach (var each in start.AsSpan(0, length))
        {
            if (each is (byte)'<')
            {
                return true;
            }
            if (each is not (0 or 0xEF or 0xBB or 0xBF or 0xFE or 0xFF or 9 or 10 or 13 or 32))
            {
                return false;
            }
        }
        return false;
    }

    private static double Number(string option, string text) =>
        NumberOption.Parse(option, text, Texts.Get("expected.number"))!.Value;

    /// <summary>What the rider can hold for how long, when the power is given so; else null.</summary>
    /// <exception cref="BadInputException">A point of it is none.</exception>
    internal static HeldPower? Held(RideSettings settings)
    {
        if (settings.Power is not { } text || !HeldForm().IsMatch(text))
        {
            return null;
        }
        return HeldPower.Of(
            text.Split(',', StringSplitOptions.TrimEntries)
                .Select(pair =>
                {
                    var match = HeldForm().Match(pair);
                    return
                        match.Success
                        && NumberOption.TryParse(match.Groups[1].Value, out var time)
                        && NumberOption.TryParse(pair[match.Length..], out var watts)
                        ? new HeldPoint(time * SecondsOf(match.Groups[2].Value), watts)
                        : throw new BadInputException(
                            Texts.Get("option.number", "--power", pair, Texts.Get("expected.power"))
                        );
                })
        );
    }

    private static double SecondsOf(string unit) =>
        unit switch
        {
            "h" => 3600,
            "min" => 60,
            _ => 1,
        };

    private static PowerPlan Power(RideSettings settings, string text)
    {
        if (Held(settings) is { } held)
        {
            // Until the road is known: the time on it says which of its figures is meant.
            return PowerPlan.Steady(held.Points[^1].PedalsW);
        }
        if (!text.Contains(':', StringComparison.Ordinal))
        {
            return PowerPlan.Steady(Number("--power", text));
        }
        // A comma parts two points here; a decimal has a point.
        return PowerPlan.Curve(
            text.Split(',', StringSplitOptions.TrimEntries)
                .Select(pair =>
                {
                    var halves = pair.Split(':');
                    return
                        halves.Length == 2
                        && NumberOption.TryParse(halves[0], out var percent)
                        && NumberOption.TryParse(halves[1], out var watts)
                        ? new PowerPoint(percent / 100, watts)
                        : throw new BadInputException(
                            Texts.Get("option.number", "--power", pair, Texts.Get("expected.power"))
                        );
                })
        );
    }

    private static (double Low, double High) Cadence(string? text)
    {
        if (text is null)
        {
            return (60, 100);
        }
        var halves = text.Split(['-', '–']);
        return
            halves.Length == 2
            && NumberOption.TryParse(halves[0], out var low)
            && NumberOption.TryParse(halves[1], out var high)
            ? (low, high)
            : throw new BadInputException(
                Texts.Get("option.number", "--cadence", text, Texts.Get("expected.cadenceRange"))
            );
    }

    private static RidingPosition Position(RideSettings settings) =>
        settings.Position is { } name
            ? Named<RidingPosition>("--position", name)
            : RidingPosition.Hoods;

    private static RoadSurface Surface(RideSettings settings) =>
        settings.Surface is { } name
            ? Named<RoadSurface>("--surface", name)
            : RoadSurface.SmoothAsphalt;

    private static T Named<T>(string option, string name)
        where T : struct, Enum
    {
        foreach (var value in Enum.GetValues<T>())
        {
            if (NameOf(value).Equals(name.Trim(), StringComparison.OrdinalIgnoreCase))
            {
                return value;
            }
        }
        throw new BadInputException(
            Texts.Get(
                "ride.unknown",
                option,
                name,
                string.Join(", ", Enum.GetValues<T>().Select(NameOf))
            )
        );
    }

    /// <summary>A name as options write it: small letters, words joined by hyphens.</summary>
    private static string NameOf<T>(T value)
        where T : struct, Enum =>
        string.Concat(
            value
                .ToString()
                .Select(
                    (c, i) =>
                        char.IsUpper(c) && i > 0
                            ? "-" + char.ToLower(c, CultureInfo.InvariantCulture)
                            : char.ToLower(c, CultureInfo.InvariantCulture).ToString()
                )
        );

    /// <summary>The beginning of a power held for a time: a number, its unit, a colon.</summary>
    [GeneratedRegex(@"^\s*(\d{1,7}(?:\.\d{1,3})?)\s*(s|min|h)\s*:")]
    private static partial Regex HeldForm();
}
