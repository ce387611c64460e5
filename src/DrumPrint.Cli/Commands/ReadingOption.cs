using System.CommandLine;
using DrumPrint.Files;

namespace DrumPrint.Cli.Commands;

/// <summary>The option that lets a chain name files anywhere; without it the user's settings decide.</summary>
internal sealed class ReadingOption
{
    private readonly Option<bool> _allowOutside = new("--allow-outside")
    {
        Description = "Read files that a chain names outside its session (its own folder, and beside it by ../). For chains you know: one from somebody else could name any file of yours.",
    };

    public void AddTo(Command command) => command.Options.Add(_allowOutside);

    /// <exception cref="UsageException">The user's settings cannot be read.</exception>
    public ReadPolicy Of(ParseResult parsed) => parsed.GetValue(_allowOutside) ? new ReadPolicy { AllowsOutside = true } : UserSettings.Read().Policy;
}
