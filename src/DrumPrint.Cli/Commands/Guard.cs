using System.CommandLine;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Cli.Output;
using DrumPrint.Delivering;
using DrumPrint.Printing.Runs;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Cli.Commands;

/// <summary>Turns whatever goes wrong into words on standard error and an exit code.</summary>
internal static class Guard
{
    private const int StackBytes = 256 << 20;

    /// <summary>Gives a command what it does.</summary>
    /// <param name="command">The command.</param>
    /// <param name="action">What it does; gives the exit code.</param>
    /// <param name="writes">Whether it was asked to write files: only then is it news that none was written. Left out: it never is.</param>
    public static void Run(Command command, Func<ParseResult, CancellationToken, int> action, Func<ParseResult, bool>? writes = null) =>
        command.SetAction((parsed, cancel) => OnDeepStack(() => Run(() => Hangups.Heard(token => action(parsed, token), cancel), writes?.Invoke(parsed) ?? false)));

    // A received chain may have buses that feed each other through thousands of steps, and a stack that overflows ends a program without a word.
    private static Task<int> OnDeepStack(Func<int> action)
    {
        var done = new TaskCompletionSource<int>();
        var thread = new Thread(() => done.SetResult(action()), StackBytes) { Name = "command", IsBackground = true };
        thread.Start();
        return done.Task;
    }

    /// <summary>Does something for one song of many: what goes wrong is said with the song's name, and gives its exit code.</summary>
    public static int Attempt(Func<int> action, bool writes, string song)
    {
        var code = Run(action, writes);
        if (code is not (ExitCode.Done or ExitCode.Findings))
        {
            Terminal.Say($"{song}: {(code == ExitCode.Cancelled ? "stopped" : "not done; see above")}.");
        }

        return code;
    }

    private static int Run(Func<int> action, bool writes)
    {
        if (SystemLibraries.Trouble() is { } trouble)
        {
            Terminal.Say(trouble);
            return ExitCode.File;
        }

        try
        {
            return action();
        }
        catch (OperationCanceledException)
        {
            Terminal.Say(writes ? "Stopped. Nothing was left half-written." : "Stopped.");
            return ExitCode.Cancelled;
        }
        catch (ChainException e)
        {
            SayEach(e.Problems.Select(p => p.ToString()));
            Terminal.Say($"{(e.Problems.Count == 1 ? "One thing" : $"{e.Problems.Count} things")} to mend in the chain file{(writes ? "; nothing was written" : "")}.");
            return ExitCode.Usage;
        }
        catch (UsageException e)
        {
            Terminal.Say(e.Message);
            return ExitCode.Usage;
        }
        catch (OverloadException e)
        {
            Terminal.SayLines(e.Message);
            return ExitCode.Usage;
        }
        catch (InputException e)
        {
            SayEach(e.Problems);
            if (writes)
            {
                Terminal.Say("Nothing was written.");
            }

            return ExitCode.File;
        }
        catch (Exception e) when (e is TicketException or DeliveryException)
        {
            Terminal.SayLines(e.Message);
            return ExitCode.File;
        }
        catch (Exception e) when (e is AudioFileException or UnreadableFileException)
        {
            Terminal.Say(e.Message);
            return ExitCode.File;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Terminal.Say($"{FileReason.PathOf(e) ?? "Standard output, or a file"}: this cannot be read or written: {FileReason.Of(e)}.");
            return ExitCode.File;
        }
#pragma warning disable CA1031 // The last stop: a user gets a sentence, never a stack trace.
        catch (Exception e)
#pragma warning restore CA1031
        {
            Terminal.Say($"This is a fault of DrumPrint, not of your files: {e.GetType().Name}: {e.Message}");
            Terminal.Say("An unfinished file, if there is one, ends in .partial. Please report it with the chain file. Set DRUMPRINT_TRACE=1 to see where it happened.");
            if (Environment.GetEnvironmentVariable("DRUMPRINT_TRACE") == "1")
            {
                Terminal.SayLines(e.ToString());
            }

            return ExitCode.Fault;
        }
    }

    // A name with a line break in it makes no problem of its own.
    private static void SayEach(IEnumerable<string> problems)
    {
        foreach (var problem in problems)
        {
            Terminal.Say(problem);
        }
    }
}
