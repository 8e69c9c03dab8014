namespace Cogwright.Cli.Output;

/// <summary>
/// Says on the error output how far a work is that takes longer than a second, and again each second; the answer itself stands
/// alone on the output.
/// </summary>
/// <param name="error">The error output.</param>
/// <param name="time">The clock.</param>
internal sealed class SlowWork(TextWriter error, TimeProvider time)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);
    private long told = time.GetTimestamp();

    /// <summary>Called at each step of the work; the words are made only when they are told.</summary>
    internal void Step(Func<string> words)
    {
        if (time.GetElapsedTime(told) < Patience)
        {
            return;
        }
        error.WriteLine(words());
        told = time.GetTimestamp();
    }

    /// <summary>The same for work that reports its steps.</summary>
    internal IProgress<T> Of<T>(Func<T, string> words) => new Steps<T>(this, words);

    private sealed class Steps<T>(SlowWork work, Func<T, string> words) : IProgress<T>
    {
        public void Report(T value) => work.Step(() => words(value));
    }
}
