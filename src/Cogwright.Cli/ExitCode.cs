namespace Cogwright.Cli;

/// <summary>How a run ends, for scripts.</summary>
internal static class ExitCode
{
    /// <summary>Done, nothing to look at.</summary>
    internal const int Fine = 0;

    /// <summary>Done, and something is worth a look: a gear that is not ok, a reading outside its target.</summary>
    internal const int Findings = 1;

    /// <summary>The command line, a file or a folder is not usable; the message says where and what to do.</summary>
    internal const int BadInput = 2;

    /// <summary>A fault of the program.</summary>
    internal const int Fault = 3;
}
