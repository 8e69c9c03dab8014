using System.Net;
using Cogwright.Drivetrain;

namespace Cogwright.Architecture.Tests;

// Code that breaks the rules on purpose: a scan that finds nothing here finds nothing anywhere.

/// <summary>Touches what a pure room may not, once per member and in ways that hide it.</summary>
public static class ImpureOffender
{
    public static string ReadsFile() => File.ReadAllText("x");

    public static bool LooksForFolder() => new DirectoryInfo("x").Exists;

    public static string OpensReaderByName() => new StreamReader("x").ReadToEnd();

    public static DateTime ReadsLocalClock() => DateTime.Now;

    public static DateTimeOffset ReadsWorldClock() => DateTimeOffset.UtcNow;

    public static long ReadsStopwatch() => System.Diagnostics.Stopwatch.GetTimestamp();

    public static string ReadsEnvironment() => Environment.MachineName;

    public static double Rolls() => Random.Shared.NextDouble();

    public static Guid MakesIdentity() => Guid.NewGuid();

    public static void Prints() => Console.WriteLine();

    public static object KeepsAddress() => IPAddress.Loopback;

    public static void Sleeps() => Thread.Sleep(0);

    // Handed on as a method group, the clock is never called here.
    public static Func<Guid> HandsOnMethod() => Guid.NewGuid;

    // The call stands in a class that the compiler writes for the lambda.
    public static Func<DateTime> HidesInLambda(int days) => () => DateTime.UtcNow.AddDays(days);

    // And here in one that it writes for the iterator.
    public static IEnumerable<int> HidesInIterator()
    {
        yield return Environment.ProcessId;
    }

    // And here in one that it writes for the state machine.
    public static async Task<int> HidesInTask()
    {
        await Task.Delay(0);
        return 0;
    }
}

/// <summary>Looks like an offender and is none: time as a value, text over a string, an iterator.</summary>
public static class PureNeighbour
{
    public static DateTime Shifts(DateTime given) => given.AddDays(1);

    public static string Joins() => Path.Combine("a", "b");

    public static string Reads(Stream given) => new StreamReader(given).ReadToEnd();

    public static IEnumerable<int> Counts()
    {
        yield return 1;
    }
}

/// <summary>Refers to the room Drivetrain, in one place per type.</summary>
public static class ArrowOffender
{
    public sealed class InField
    {
        public Point? Held { get; init; }
    }

    public static int InParameter(IReadOnlyList<Point[]> given) => given.Count;

    public static string InBody() => typeof(Point).Name;

    public static int InTypeArgument() => Enumerable.Empty<Point>().Count();

    public static Func<object> InLambda() => () => new Point(1, 2);
}
