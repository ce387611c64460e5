using DrumPrint.Chains;
using DrumPrint.Delivering;
using DrumPrint.Language;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Archiving;

/// <summary>All files of a session, and where each lies in its archive: as it lies around the chain now.</summary>
internal sealed class SessionFiles
{
    private const string Top = "session";

    private readonly string _root;
    private readonly Dictionary<string, string> _places = new(StringComparer.Ordinal);

    private SessionFiles(string root) => _root = root;

    /// <summary>Places in the archive, with <c>/</c>, by full path.</summary>
    public IReadOnlyDictionary<string, string> Places => _places;

    /// <summary>Gathers them.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="prints">Its prints and their ticket.</param>
    /// <exception cref="UsageException">A file lies elsewhere, so the archive could not be used as it stands.</exception>
    public static SessionFiles Of(Chain chain, ProvedPrints prints)
    {
        var inputs = chain.Tracks.SelectMany(t => t.Files).Concat(chain.Impulses.Select(i => i.File)).Concat(chain.Song.Tempo is { } tempo ? [tempo.File] : []).Concat(chain.Uses is { } recipe ? [recipe.File] : []).ToList();
        var home = Path.GetFullPath(chain.Folder.Length == 0 ? "." : chain.Folder);
        var files = new SessionFiles(inputs.Any(LeadsUp) ? Path.GetDirectoryName(home) ?? home : home);
        files.Add(chain.Path, Path.GetFullPath(chain.Path));
        foreach (var file in inputs)
        {
            files.Add(file, Path.GetFullPath(Path.Combine(home, file)));
        }

        var folder = Path.GetRelativePath(files._root, home);
        foreach (var name in prints.Ticket.Prints.Select(p => p.FileName).Append(Ticket.FileName(chain.Song)))
        {
            files._places[Path.GetFullPath(Path.Combine(prints.Folder, name))] = Place(Path.Combine(folder, PrintFileName.Folder, name));
        }

        return files;
    }

    /// <summary>Where a file that the chain names lies in the archive.</summary>
    public string PlaceOf(Chain chain, string file) => _places[Path.GetFullPath(Path.Combine(chain.Folder.Length == 0 ? "." : chain.Folder, file))];

    private static bool LeadsUp(string file) => file.Replace('\\', '/').Split('/')[0] == "..";

    private static string Place(string relative) => $"{Top}/{relative.Replace(Path.DirectorySeparatorChar, '/')}".Replace("/./", "/", StringComparison.Ordinal);

    private void Add(string said, string full)
    {
        var relative = Path.GetRelativePath(_root, full);
        if (Path.IsPathRooted(relative) || LeadsUp(relative))
        {
            throw new UsageException($"{Show.Name(said)} lies outside the session in {_root}. An archive is used as it stands, so all must lie in one folder: copy that file in, name it there in the chain, and print again.");
        }

        _places[full] = Place(relative);
    }
}
