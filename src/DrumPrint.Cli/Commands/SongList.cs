using System.CommandLine;
using System.CommandLine.Parsing;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Cli.Output;
using DrumPrint.Delivering;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Printing;

namespace DrumPrint.Cli.Commands;

/// <summary>One song or many on one command line. Of many, one that fails does not stop the others, and what became of each is told at the end.</summary>
internal sealed class SongList
{
    private readonly string _verb;
    private readonly Option<bool> _listJobs = new("--list-jobs") { Description = "Do nothing: write one command for each song, one a line, for any job engine to run." };

    /// <param name="verb">The command.</param>
    /// <param name="argument">The songs.</param>
    public SongList(string verb, Argument<string[]> argument)
    {
        (_verb, Argument) = (verb, argument);
        argument.Arity = ArgumentArity.OneOrMore;

        // An argument of many words would take an unknown option for a song.
        argument.Validators.Add(result =>
        {
            if (result.Tokens.Select(t => t.Value).FirstOrDefault(v => v.StartsWith('-') && !Path.Exists(v)) is { } unknown)
            {
                var nearest = Spelling.Nearest(unknown, ((CommandResult)result.Parent!).Command.Options.Select(o => o.Name));
                result.AddError($"{unknown}: there is no such option.{(nearest is null ? "" : $" Did you mean {nearest}?")}");
            }
        });
    }

    public Argument<string[]> Argument { get; }

    public void AddTo(Command command) => command.Options.Add(_listJobs);

    /// <summary>Whether files are written: a list of jobs writes none.</summary>
    public bool Writes(ParseResult parsed) => !parsed.GetValue(_listJobs);

    /// <summary>Whether there are several.</summary>
    public bool AreMany(ParseResult parsed) => (parsed.GetValue(Argument)?.Length ?? 0) > 1;

    /// <summary>Refuses options that are for one song.</summary>
    /// <exception cref="UsageException">One of them was given with many.</exception>
    public void ForOneOnly(ParseResult parsed, params IEnumerable<Option> options)
    {
        if (AreMany(parsed) && options.FirstOrDefault(o => parsed.GetResult(o) is { Implicit: false }) is { } option)
        {
            throw new UsageException($"{option.Name} is for one song, and {Words.Count(parsed.GetRequiredValue(Argument).Length, "song")} are named. Give it with one of them.");
        }
    }

    /// <summary>Does it with each song.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="talk">How much is said.</param>
    /// <param name="one">Does it with one song, told whether it is one of many.</param>
    /// <param name="prints">Where the prints of a song lie; null for the folder beside its chain.</param>
    /// <param name="reading">Which files chains may name.</param>
    /// <param name="writes">Whether files are written.</param>
    /// <param name="cancel">Stops it; songs that are done stay done.</param>
    public int Each(ParseResult parsed, (bool IsJson, bool IsQuiet) talk, Func<string, bool, int> one, string? prints, ReadPolicy reading, bool writes, CancellationToken cancel)
    {
        var songs = parsed.GetRequiredValue(Argument);
        if (parsed.GetValue(_listJobs))
        {
            JobLines.Write(_verb, parsed, songs, Argument, _listJobs);
            return ExitCode.Done;
        }

        if (songs is [var only])
        {
            return one(only, false);
        }

        if (string.Join(' ', songs) is var whole && !songs.All(Path.Exists) && Path.Exists(whole))
        {
            throw new UsageException($"{whole} is one name: put a name with spaces in quotes.");
        }

        if (songs.GroupBy(Path.GetFullPath, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new UsageException($"{twice.First()} is named twice. Name each song once.");
        }

        var rows = new List<SongRow>();
        foreach (var song in songs)
        {
            if (cancel.IsCancellationRequested)
            {
                rows.Add(new SongRow(song, null, null));
                continue;
            }

            if (talk is { IsJson: false, IsQuiet: false })
            {
                Terminal.Screen().Line($"{song} ({rows.Count + 1} of {songs.Length})");
            }

            var code = Guard.Attempt(() => one(song, true), writes, song);
            rows.Add(new SongRow(song, code, code is ExitCode.Done or ExitCode.Findings ? Figures(song, prints, reading) : null));
        }

        SongScreen.Write(rows, talk.IsJson, talk.IsQuiet);
        return cancel.IsCancellationRequested ? ExitCode.Cancelled : rows.Max(r => r.Code ?? ExitCode.Done);
    }

    // A folder of raw tracks and an excerpt have no ticket, and so no figures.
    private static SongFigures? Figures(string song, string? prints, ReadPolicy reading)
    {
        try
        {
            return SongFigures.Of(ChainReader.Read(SessionFolder.Chain(song), reading: reading), prints);
        }
        catch (Exception e) when (e is DrumPrintException or IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
