using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>Work of several steps: shows its progress on a terminal, and nothing in a file or a pipe.</summary>
internal static class LongWork
{
    internal static void Run(IAnsiConsole console, string title, int steps, Action<int> step)
    {
        if (!console.Profile.Out.IsTerminal || steps < 3)
        {
            for (var i = 0; i < steps; i++)
            {
                step(i);
            }
            return;
        }
        console
            .Progress()
            .AutoClear(true)
            .Start(progress =>
            {
                var task = progress.AddTask(Markup.Escape(title), maxValue: steps);
                for (var i = 0; i < steps; i++)
                {
                    step(i);
                    task.Increment(1);
                }
            });
    }
}
