namespace DrumPrint.Cli;

/// <summary>What the program says to the shell when it ends.</summary>
internal static class ExitCode
{
    public const int Done = 0;
    public const int Findings = 1;
    public const int Usage = 2;
    public const int File = 3;
    public const int Fault = 70;
    public const int Cancelled = 130;

    /// <summary>The list shown under <c>--help</c>.</summary>
    public const string Help = """
        Exit codes:
          0    done
          1    done, with findings to look at
          2    the command or the chain file needs a change; nothing was written
          3    a file is missing or cannot be read or written
          70   a fault of the program itself
          130  stopped by Ctrl-C; nothing is left half-written
        """;
}
