using System.Diagnostics;
using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;
using Cogwright.Drawing;

namespace Cogwright.Web;

/// <summary>
/// Puts drawings on the screen, past the renderer: one string or one row of numbers a frame, without JSON. Outside a browser nothing is shown.
/// </summary>
public sealed class SceneScreen
{
    private Task? ready;
    private double[] numbers = [];

    /// <summary>Loads what it needs; to be awaited once before anything is shown.</summary>
    public Task ReadyAsync() =>
        ready ??= OperatingSystem.IsBrowser() ? LoadAsync() : Task.CompletedTask;

    /// <summary>Shows a scene in the element with that id, in place of what it showed; how near one looks is kept.</summary>
    public static void Show(string place, Scene scene)
    {
        ArgumentNullException.ThrowIfNull(scene);
        if (OperatingSystem.IsBrowser())
        {
            Browser.Show(place, SvgWriter.Write(scene, Options));
        }
    }

    /// <summary>Shows the parts of a moving view, and frames it the first time.</summary>
    public static void Show(string place, MovingSideView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        if (OperatingSystem.IsBrowser())
        {
            Browser.ShowParts(place, view.Markup);
        }
    }

    /// <summary>Gives the boxes that the framing buttons show (mm of the scene, y up); on a wide screen the whole is looked at first, unless close is asked for.</summary>
    public static void Frames(string place, Extent whole, Extent close, bool closeFirst = false)
    {
        if (OperatingSystem.IsBrowser())
        {
            Browser.Frames(
                place,
                [
                    whole.Left,
                    -whole.Top,
                    whole.Width,
                    whole.Height,
                    close.Left,
                    -close.Top,
                    close.Width,
                    close.Height,
                    closeFirst ? 1 : 0,
                ]
            );
        }
    }

    /// <summary>Moves the parts of a view.</summary>
    /// <param name="place">Id of the element.</param>
    /// <param name="view">The view that it shows.</param>
    /// <param name="table">Where the parts shall be.</param>
    /// <param name="gauge">What is dimensioned.</param>
    /// <param name="showBefore">Whether the state before is laid over.</param>
    /// <param name="atRest">Whether there is time to look for a free place for the figure.</param>
    /// <param name="modelMs">How long the model took to say it (ms), for who measures.</param>
    public void Move(
        string place,
        MovingSideView view,
        Drivetrain.GearTable table,
        Gauge gauge,
        bool showBefore,
        bool atRest,
        double modelMs = 0
    )
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(table);
        if (!OperatingSystem.IsBrowser())
        {
            return;
        }
        var began = Stopwatch.GetTimestamp();
        var count = MovingSideView.NumberCount(table.Pitches);
        if (numbers.Length < count)
        {
            numbers = new double[count + 32];
        }
        var pose = view.Pose(table, numbers.AsSpan(0, count), gauge, TextMm(place), atRest);
        Browser.Move(
            place,
            numbers.AsSpan(0, count),
            MovingSideView.PartCount,
            MovingSideView.LineCount,
            (int)pose.Chain,
            showBefore,
            pose.Dimensions,
            pose.Title,
            modelMs,
            Stopwatch.GetElapsedTime(began).TotalMilliseconds
        );
    }

    /// <summary>Height of a capital that is read easily however near one looks (mm of the scene).</summary>
    public static double TextMm(string place) =>
        OperatingSystem.IsBrowser() ? Browser.Unit(place) * CapitalPixels : 1;

    /// <summary>Calls back when somebody looks nearer or from farther away: texts are then set anew.</summary>
    public static void WatchZoom(string place, Action zoomed)
    {
        if (OperatingSystem.IsBrowser())
        {
            Browser.Watch(place, zoomed);
        }
    }

    private const double CapitalPixels = 11;

    private static SvgOptions Options { get; } = new() { FillsWidth = true, ForScreen = true };

    [SupportedOSPlatform("browser")]
    private static async Task LoadAsync()
    {
        // Seen from _framework, where the runtime lies.
        await JSHost.ImportAsync("scene", "../js/scene.js").ConfigureAwait(true);
        Browser.Rules(SvgWriter.StyleSheet(Ground.AsPreferred));
    }
}
