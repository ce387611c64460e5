using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Diff;
using DrumPrint.Language;
using DrumPrint.Session;

namespace DrumPrint.Printing.Folder;

/// <summary>A chain that goes back to a version of the song that was printed with other settings.</summary>
public sealed class ReturnToVersion
{
    private const int MostChanges = 5;

    private ReturnToVersion(string warning) => Warning = warning;

    /// <summary>The sentences to say before a run begins, while there is still time.</summary>
    public string Warning { get; }

    /// <summary>Looks whether a run goes back; null when it takes nothing away, or only what its own version makes of itself.</summary>
    /// <remarks>Only settings are looked at. What changed in raw files shows once they are read, and the run tells of it then.</remarks>
    /// <param name="chain">The chain that is to be printed.</param>
    /// <param name="options">How.</param>
    /// <exception cref="UsageException">A print that is asked for is not in the chain.</exception>
    public static ReturnToVersion? Of(Chain chain, PrintOptions options)
    {
        ArgumentNullException.ThrowIfNull(chain);
        ArgumentNullException.ThrowIfNull(options);
        var run = PrintRun.Of(chain, options);
        if (!run.IsOfWholeSong)
        {
            return null; // an excerpt replaces no print
        }

        var folder = options.OutFolder ?? Path.Combine(chain.Folder, run.FolderName);
        var song = chain.Song;
        if (NewestVersion(folder, song.Code) is not { } newest || newest <= song.Version || new EarlierTickets(folder, song).Current is not { } ticket)
        {
            return null;
        }

        var replaced = run.Selection.Chosen
            .Where(t => File.Exists(Path.Combine(folder, PrintFileName.Of(t.Number, t.Name, song))))
            .OrderBy(t => t.Number)
            .ToDictionary(t => string.Create(CultureInfo.InvariantCulture, $"{t.Number:00} {t.Name}"), t => string.Create(CultureInfo.InvariantCulture, $"{t.Number:00}_{t.Name}"));
        var changes = ChainChanges.Of(Made.Of(folder, ticket) with { Chain = NamedAs(chain, ticket.Chain) }, Made.Of(chain.Path, chain) with { Encoding = options.Encoding ?? chain.Output.Encoding })
            .Where(c => c.Reaches.Any(replaced.ContainsKey))
            .ToList();
        var reached = changes.SelectMany(c => c.Reaches).ToHashSet(StringComparer.Ordinal);
        return changes.Count == 0 ? null : new ReturnToVersion(string.Create(
            CultureInfo.InvariantCulture,
            $"This chain is version {song.Version} again, and {folder} holds version {newest} already. Version {song.Version} was printed with other settings, and what it made is about to leave its place: {Show.Some([.. replaced.Where(r => reached.Contains(r.Key)).Select(r => r.Value)])}.{Environment.NewLine}{Differences(changes)}{Environment.NewLine}These files will be kept in {Path.Combine(folder, ChangedPrints.FolderName)}. To have both under their own names, set song.version to {newest + 1}."));
    }

    // Another name is no loss.
    private static Chain NamedAs(Chain chain, Chain then) => then with
    {
        Song = then.Song with { Title = chain.Song.Title },
        Prints = [.. then.Prints.Select(p => chain.Prints.FirstOrDefault(n => n.Number == p.Number) is { } now ? p with { Name = now.Name } : p)],
    };

    private static string Differences(List<Change> changes)
    {
        var lines = changes.Take(MostChanges).Select(c => $"  {c}");
        return string.Join(Environment.NewLine, ["What differs from then to now:", .. lines, .. changes.Count > MostChanges ? [string.Create(CultureInfo.InvariantCulture, $"  and {changes.Count - MostChanges} more")] : Array.Empty<string>()]);
    }

    // Of prints and tickets.
    private static int? NewestVersion(string folder, string code)
    {
        try
        {
            return !Directory.Exists(folder) ? null : Directory.EnumerateFiles(folder)
                .Select(path => VersionInName.OfPrint(Path.GetFileName(path), code) ?? VersionInName.OfTicket(Path.GetFileName(path), code))
                .Max();
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            return null; // what cannot be looked at must not stop a print
        }
    }
}
