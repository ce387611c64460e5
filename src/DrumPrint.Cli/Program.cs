using DrumPrint.Cli;
using DrumPrint.Cli.Output;

try
{
    FileLimit.TurnIntoErrors();
    Terminal.UseUtf8();
    return await Entry.Run(args);
}
catch (Exception e) when (e is IOException or UnauthorizedAccessException or ObjectDisposedException)
{
    // Help and first screen go to standard output, which may be full or closed.
    Terminal.Say("Standard output cannot be written: it is closed, or its disk is full.");
    return ExitCode.File;
}
