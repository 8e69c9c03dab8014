namespace Cogwright.Architecture.Tests;

/// <summary>What a pure room may not touch: files, clocks, the network, chance, the machine it runs on.</summary>
public static class Purity
{
    /// <summary>Where the compiler puts the code that it makes from [GeneratedRegex].</summary>
    public const string GeneratedExpressions = "System.Text.RegularExpressions.Generated";

    private static readonly HashSet<string> ForbiddenTypes =
    [
        "System.IO.File",
        "System.IO.FileInfo",
        "System.IO.FileStream",
        "System.IO.FileSystemInfo",
        "System.IO.FileSystemWatcher",
        "System.IO.Directory",
        "System.IO.DirectoryInfo",
        "System.IO.DriveInfo",
        "System.IO.RandomAccess",
        "System.Console",
        "System.Environment",
        "System.AppDomain",
        "System.AppContext",
        "System.Random",
        "System.TimeZoneInfo",
        "System.Diagnostics.Process",
        "System.Diagnostics.Stopwatch",
        "System.Security.Cryptography.RandomNumberGenerator",
        "System.Threading.PeriodicTimer",
        "System.Threading.Thread",
        "System.Threading.ThreadPool",
        "System.Threading.Timer",
        "System.Threading.Tasks.Parallel",
    ];

    private static readonly HashSet<(string Type, string Name)> ForbiddenMembers =
    [
        ("System.DateTime", "get_Now"),
        ("System.DateTime", "get_UtcNow"),
        ("System.DateTime", "get_Today"),
        ("System.DateTimeOffset", "get_Now"),
        ("System.DateTimeOffset", "get_UtcNow"),
        ("System.TimeProvider", "get_System"),
        ("System.Guid", "NewGuid"),
        ("System.Guid", "CreateVersion7"),
        ("System.IO.Path", "Exists"),
        ("System.IO.Path", "GetFullPath"),
        ("System.IO.Path", "GetRandomFileName"),
        ("System.IO.Path", "GetTempFileName"),
        ("System.IO.Path", "GetTempPath"),
        ("System.Threading.Tasks.Task", "Delay"),
        ("System.Threading.Tasks.Task", "Run"),
        ("System.Threading.Tasks.TaskFactory", "StartNew"),
    ];

    /// <summary>The uses that break purity.</summary>
    public static IEnumerable<Use> BrokenBy(IEnumerable<Use> uses) => uses.Where(IsForbidden);

    private static bool IsForbidden(Use use)
    {
        var member = use.ToMember.Split('(')[0];
        // Every iterator asks which thread it runs on, to see whether it may serve as its own
        // enumerator: the compiler writes that, and nothing depends on the answer.
        if (use.IsWrittenByCompiler && member == "get_CurrentManagedThreadId")
        {
            return false;
        }
        // Every generated expression asks whether the program has set a time-out for all of them.
        if (use.FromNamespace == GeneratedExpressions && use.ToType == "System.AppContext")
        {
            return false;
        }
        return ForbiddenTypes.Contains(use.ToType)
            || ForbiddenMembers.Contains((use.ToType, member))
            || use.ToType.StartsWith("System.Net.", StringComparison.Ordinal)
            || use.ToType == "System.Runtime.InteropServices.DllImportAttribute"
            || use.ToType == "System.Runtime.InteropServices.LibraryImportAttribute"
            || OpensFile(use);
    }

    /// <summary>Readers and writers are pure over a stream or a string, but also open files by name.</summary>
    private static bool OpensFile(Use use) =>
        use.ToType is "System.IO.StreamReader" or "System.IO.StreamWriter"
        && use.ToMember.StartsWith(".ctor(System.String", StringComparison.Ordinal);
}
