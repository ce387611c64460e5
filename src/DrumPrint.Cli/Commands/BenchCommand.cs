using System.CommandLine;
using DrumPrint.Bench.Serving;
using DrumPrint.Cli.Output;
using DrumPrint.Printing;

namespace DrumPrint.Cli.Commands;

/// <summary><c>bench CHAIN</c>: a page on which the chain is heard while it is set.</summary>
internal static class BenchCommand
{
    public static Command Create()
    {
        var chain = new Argument<string>("CHAIN") { Description = "The chain file, such as my-song.chain.json, or the folder that holds it and no other chain." };
        var noBrowser = new Option<bool>("--no-browser") { Description = "Only show the address; open no browser." };
        var command = new Command("bench", "Hear a chain while you set it, on a page in the browser that this machine alone can open.") { chain, noBrowser };
        var reading = new ReadingOption();
        reading.AddTo(command);
        Guard.Run(command, (parsed, cancel) => Run(SessionFolder.Chain(parsed.GetRequiredValue(chain)), reading.Of(parsed), !parsed.GetValue(noBrowser), cancel));
        return command;
    }

    private static int Run(string path, Files.ReadPolicy policy, bool opens, CancellationToken cancel)
    {
        Terminal.Say("Getting the bench ready …");
        var server = BenchServer.Start(path, policy).GetAwaiter().GetResult();
        try
        {
            Terminal.Tell(server.Address);
            Terminal.Say("Open this address in a browser on this machine; it is good for one browser. Ctrl-C ends the bench.");
            if (opens && !WebBrowser.Open(server.Address))
            {
                Terminal.Say("No browser could be opened from here.");
            }

            using var either = CancellationTokenSource.CreateLinkedTokenSource(cancel, server.Ended);
            either.Token.WaitHandle.WaitOne();
        }
        finally
        {
            server.DisposeAsync().AsTask().GetAwaiter().GetResult();
        }

        Terminal.Say("The bench has ended. The chain file holds every change that was written.");
        return ExitCode.Done;
    }
}
