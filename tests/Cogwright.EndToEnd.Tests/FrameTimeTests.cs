using System.Globalization;
using System.Text;
using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

/// <summary>
/// How long one step of a slider takes from the browser's event until the mechanism stands in its new place: figures for
/// artifacts/reports/frame-times.md. Time is told, never asserted; that the drawing moved is.
/// </summary>
public sealed class FrameTimeTests(Shop shop)
{
    private const string Steps = """
        async ({ knob, part }) => {
          const slider = document.querySelector('#knob-' + knob);
          const stage = document.querySelector('#side-view');
          const [least, most, step] = [+slider.min, +slider.max, +slider.step];
          stage.frameTimes = [];
          const script = [], frame = [], places = new Set();
          const painted = () => new Promise(done => requestAnimationFrame(() => {
            const channel = new MessageChannel();
            channel.port1.onmessage = done;
            channel.port2.postMessage(0);
          }));
          const count = Math.round((most - least) / step);
          for (let pass = 0; pass < 6; pass++) {
            for (let i = 0; i <= count; i++) {
              await new Promise(requestAnimationFrame);
              slider.value = least + (pass % 2 ? count - i : i) * step;
              const began = performance.now();
              slider.dispatchEvent(new Event('input', { bubbles: true }));
              script.push(performance.now() - began);
              stage.querySelector('svg').getBBox();
              await painted();
              frame.push(performance.now() - began);
              places.add(part ? stage.querySelector(part).getAttribute('transform') : document.querySelector('#top-view svg').innerHTML);
            }
          }
          const middle = (all, at) => { const sorted = [...all].sort((a, b) => a - b); return sorted[Math.floor((sorted.length - 1) * at)]; };
          const row = all => [middle(all, 0.5), middle(all, 0.95)];
          const parts = stage.frameTimes;
          stage.frameTimes = undefined;
          return [places.size, script.length, ...row(parts.map(t => t.model)), ...row(parts.map(t => t.places)), ...row(parts.map(t => t.elements)), ...row(script), ...row(frame)];
        }
        """;

    private static readonly string Report = Path.Combine(
        Path.GetDirectoryName(Shop.Pictures)!,
        "frame-times.md"
    );

    /// <summary>Bike, slider, what it moves, how much slower the processor is; all of them in the long campaign.</summary>
    public static TheoryData<string, string, string, int> Sliders =>
        Shop.IsLong
            ? new()
            {
                { "demo-road-2x12-wireless", "screw", "[data-part='9']", 1 },
                { "demo-road-2x12-wireless", "screw", "[data-part='9']", 6 },
                { "demo-road-2x12-wireless", "chain", "[data-part='9']", 1 },
                { "demo-road-2x12-wireless", "lean", "", 1 },
                { "demo-road-2x12-wireless", "lean", "", 6 },
                { "demo-full-suspension-1x12", "travel", "[data-part='3']", 1 },
                { "demo-full-suspension-1x12", "travel", "[data-part='3']", 6 },
            }
            : new()
            {
                { "demo-road-2x12-wireless", "screw", "[data-part='9']", 1 },
                { "demo-full-suspension-1x12", "travel", "[data-part='3']", 1 },
            };

    [Theory]
    [MemberData(nameof(Sliders))]
    public async Task Slider_Moved_MovesTheMechanism(
        string bike,
        string knob,
        string part,
        int slower
    )
    {
        await using var visit = await shop.VisitAsync(Size.Desk);
        await visit.GoAsync("bike/" + bike);
        await visit.Page.WaitForSelectorAsync(
            "#side-view [data-chain=pins]",
            new() { State = WaitForSelectorState.Attached }
        );
        var devTools = await visit.Context.NewCDPSessionAsync(visit.Page);
        await devTools.SendAsync("Emulation.setCPUThrottlingRate", new() { ["rate"] = slower });
        var told = await visit.Page.EvaluateAsync<double[]>(Steps, new { knob, part });
        Assert.True(told[0] > 3, "the drawing did not move");
        Add(bike, knob, slower, told);
    }

    private static void Add(string bike, string knob, int slower, double[] told)
    {
        var line = new StringBuilder();
        if (!File.Exists(Report))
        {
            line.Append(
                "Milliseconds, median / 95th of 100. Model: one gear solved. Places: numbers of the drawing. Elements: the browser's. "
                    + "Event: all code from the slider's event to its end, the figures beside the drawing included. "
                    + "Painted: until the frame after it is on the screen, waiting for the frame included.\n\n"
            );
            line.Append(
                "| when | bike | knob | slower | steps | model | places | elements | event | painted |\n"
            );
            line.Append("|---|---|---|---|---|---|---|---|---|---|\n");
        }
        line.Append(
            CultureInfo.InvariantCulture,
            $"| {DateTime.UtcNow:yyyy-MM-dd HH:mm} | {bike} | {knob} | {slower}× | {told[1]} |"
        );
        for (var i = 2; i < told.Length; i += 2)
        {
            line.Append(CultureInfo.InvariantCulture, $" {told[i]:0.0} / {told[i + 1]:0.0} |");
        }
        File.AppendAllText(Report, line.Append('\n').ToString());
    }
}
