using System.Diagnostics;
using System.Globalization;
using System.Text;
using Cogwright.Storage;

namespace Cogwright.Faults.Tests;

/// <summary>The program that appends, started and waiting to begin.</summary>
internal sealed class AppenderProcess : IDisposable
{
    private const int ExitCodeOfKill = 128 + 9;

    private static readonly Lazy<byte[]> EmptyStore = new(() =>
    {
        var folder = Directory.CreateTempSubdirectory("cogwright-empty-").FullName;
        ShopStore
            .OpenAsync(new StoreOptions(folder))
            .GetAwaiter()
            .GetResult()
            .DisposeAsync()
            .AsTask()
            .GetAwaiter()
            .GetResult();
        var bytes = File.ReadAllBytes(Path.Combine(folder, StoreOptions.DatabaseFileName));
        Directory.Delete(folder, recursive: true);
        return bytes;
    });

    private readonly string scratch = Directory
        .CreateTempSubdirectory("cogwright-scratch-")
        .FullName;

    private readonly Process process;
    private readonly Task<string> errors;

    internal AppenderProcess(string folder)
        : this(scratch => [folder, scratch]) { }

    private AppenderProcess(Func<string, string[]> arguments)
    {
        File.WriteAllBytes(Path.Combine(scratch, StoreOptions.DatabaseFileName), EmptyStore.Value);
        var program = Path.Combine(
            AppContext.BaseDirectory.Replace(
                "Cogwright.Faults.Tests",
                "Cogwright.Faults.Appender",
                StringComparison.Ordinal
            ),
            "Cogwright.Faults.Appender"
        );
        process = Process.Start(
            new ProcessStartInfo(program, arguments(scratch))
            {
                RedirectStandardInput = true,
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            }
        )!;
        errors = process.StandardError.ReadToEndAsync();
    }

    /// <summary>A process that holds a lock on a database file until it is told to go.</summary>
    internal static AppenderProcess Locking(string path)
    {
        var process = new AppenderProcess(_ => ["lock", path]);
        Assert.Equal("ready", process.ReadWholeLine());
        return process;
    }

    /// <summary>A process that waits to put libraries of so many parts in, one after the other.</summary>
    internal static AppenderProcess Importing(string folder, int parts) =>
        new(_ => ["import", folder, parts.ToString(CultureInfo.InvariantCulture)]);

    /// <summary>Waits until it has let go and ended.</summary>
    internal void LetGo()
    {
        process.StandardInput.WriteLine();
        process.StandardInput.Flush();
        process.WaitForExit();
    }

    /// <summary>Lets it begin.</summary>
    internal void Go()
    {
        Assert.Equal("ready", ReadWholeLine());
        process.StandardInput.WriteLine();
        process.StandardInput.Flush();
    }

    /// <summary>A line with its end; null at the end of all. What was cut off by the kill is no line.</summary>
    internal string? ReadWholeLine()
    {
        var line = new StringBuilder();
        while (process.StandardOutput.Read() is >= 0 and var letter)
        {
            if (letter == '\n')
            {
                return line.ToString();
            }
            line.Append((char)letter);
        }
        return null;
    }

    internal void Kill() => process.Kill();

    internal void AssertKilled()
    {
        process.WaitForExit();
        Assert.True(process.ExitCode == ExitCodeOfKill, errors.GetAwaiter().GetResult());
    }

    public void Dispose()
    {
        process.Kill();
        process.WaitForExit();
        process.Dispose();
        Directory.Delete(scratch, recursive: true);
    }
}
