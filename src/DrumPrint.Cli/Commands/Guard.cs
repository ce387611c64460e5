using System.CommandLine;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Planning;
using DrumPrint.Prints;
using DrumPrint.Prints.Ticketing;

namespace DrumPrint.Cli.Commands;

/// <summary>Turns whatever goes wrong into words on standard error and an exit code.</summary>
internal static class Guard
{
    public static void Run(Command command, Func<ParseResult, CancellationToken, int> action) =>
        command.SetAction((parsed, cancel) => Task.Run(() => Run(() => action(parsed, cancel)), CancellationToken.None));

    private static int Run(Func<int> action)
    {
        try
        {
            return action();
        }
        catch (OperationCanceledException)
        {
            Console.Error.WriteLine("Stopped. Nothing was left half-written.");
            return ExitCode.Cancelled;
        }
        catch (ChainException e)
        {
            Console.Error.WriteLine(e.Message);
            Console.Error.WriteLine(e.Problems.Count == 1 ? "One thing to mend in the chain file; nothing was written." : $"{e.Problems.Count} things to mend in the chain file; nothing was written.");
            return ExitCode.Usage;
        }
        catch (Exception e) when (e is UsageException or OverloadException)
        {
            Console.Error.WriteLine(e.Message);
            return ExitCode.Usage;
        }
        catch (InputException e)
        {
            Console.Error.WriteLine(e.Message);
            Console.Error.WriteLine("Nothing was written.");
            return ExitCode.File;
        }
        catch (Exception e) when (e is AudioFileException or UnreadableFileException or TicketException)
        {
            Console.Error.WriteLine(e.Message);
            return ExitCode.File;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine($"{FileReason.PathOf(e) ?? "A file or folder"}: this cannot be read or written: {FileReason.Of(e)}.");
            return ExitCode.File;
        }
#pragma warning disable CA1031 // The last stop: a user gets a sentence, never a stack trace.
        catch (Exception e)
#pragma warning restore CA1031
        {
            Console.Error.WriteLine($"This is a fault of DrumPrint, not of your files: {e.GetType().Name}: {e.Message}");
            Console.Error.WriteLine("An unfinished file, if there is one, ends in .partial. Please report it with the chain file. Set DRUMPRINT_TRACE=1 to see where it happened.");
            if (Environment.GetEnvironmentVariable("DRUMPRINT_TRACE") == "1")
            {
                Console.Error.WriteLine(e);
            }

            return ExitCode.Fault;
        }
    }
}
