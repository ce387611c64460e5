using System.CommandLine;
using DrumPrint.Cli.Output;
using DrumPrint.Session;
using DrumPrint.Store;

namespace DrumPrint.Cli.Commands;

/// <summary><c>store list|verify|clear SESSION</c>: what is kept beside a chain so that the next print renders only what changed.</summary>
internal static class StoreCommand
{
    public static Command Create() => new("store", "Show, check or empty what is kept so that the next print renders only what changed.")
    {
        Verb("list", "Show what is kept, for which bus or print, and how much room it takes.", (folder, _) =>
        {
            StoreScreen.List(folder, StoreContents.List(folder), StoreContents.Leftovers(folder));
            return ExitCode.Done;
        }),
        Verb("verify", "Hold every entry against its hashes; drop what is damaged. It is rendered again when it is needed.", (folder, cancel) =>
        {
            var check = StoreContents.Verify(folder, cancel);
            StoreScreen.Verified(folder, check, StoreContents.Leftovers(folder));
            return check.Dropped.Count > 0 ? ExitCode.Findings : ExitCode.Done;
        }),
        Verb("clear", "Drop everything that is kept. Prints stay; the next print renders everything.", (folder, _) =>
        {
            StoreScreen.Cleared(folder, StoreContents.Clear(folder));
            return ExitCode.Done;
        }),
    };

    private static Command Verb(string name, string help, Func<string, CancellationToken, int> run)
    {
        var session = new Argument<string>("SESSION") { Description = "The chain file, or the folder it lies in. Without it: this folder.", DefaultValueFactory = _ => "." };
        var command = new Command(name, help) { session };
        Guard.Run(command, (parsed, cancel) =>
        {
            var path = parsed.GetRequiredValue(session);
            NamedPlace.MustExist(path);
            var folder = StoreOptions.Beside(Directory.Exists(path) ? Path.Combine(path, "chain") : path).Folder;
            return Directory.Exists(folder)
                ? run(folder, cancel)
                : throw new UsageException($"There is no store at {folder}. It lies beside the chain file once that has been printed; name the chain file or its folder.");
        });
        return command;
    }
}
