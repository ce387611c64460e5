using DrumPrint.Audio;
using DrumPrint.Chains.Format;
using DrumPrint.Files;

namespace DrumPrint.Chains.Reading;

/// <summary>Tells of raw files that are not there together with what else is wrong with a chain: whoever mends the one should not learn
/// of the other only then.</summary>
/// <param name="problems">Gathers the mistakes.</param>
/// <param name="folder">The folder of the chain; empty for the current one.</param>
/// <param name="reach">Which files may be looked for.</param>
internal sealed class MissingFiles(ProblemList problems, string folder, SessionReach reach)
{
    private readonly Dictionary<NamedFile, Values> _named = [];

    public void Tell(Values chain)
    {
        Name("track", chain.Entries(ChainKeys.Tracks), TrackKeys.File);
        Name("impulse", chain.Entries(ChainKeys.Impulses), ImpulseKeys.File);
        var folders = MissingFolder.Among(folder, _named.Keys);
        foreach (var missing in folders)
        {
            Add(missing.Files[0], missing.ToString());
        }

        foreach (var file in _named.Keys.Except(folders.SelectMany(f => f.Files)))
        {
            var path = Path.Combine(folder, file.File);
            if (!Path.Exists(path) && NearbyFile.WithOtherAccents(path) is null)
            {
                Add(file, $"{file.File}: there is no such file.{NearbyFile.Hint(path, IsNamed)}");
            }
        }
    }

    private void Name(string kind, IEnumerable<Values> entries, TextParameter file)
    {
        foreach (var entry in entries)
        {
            foreach (var name in entry.Texts(TrackKeys.Files).Append(entry.Text(file)).OfType<string>().Where(n => n.Length > 0 && reach.Outside(n) is null))
            {
                _named.TryAdd(new NamedFile(kind, entry.Name, name, entry.Position.Line), entry);
            }
        }
    }

    private bool IsNamed(string path) => _named.Keys.Any(f => Path.GetFullPath(Path.Combine(folder, f.File)) == path);

    private void Add(NamedFile file, string message) => problems.Add(_named[file].Position, _named[file].Place, message);
}
