using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Measuring;

/// <summary>The sound files that a path stands for: itself, or those of a folder.</summary>
/// <param name="Files">The files; the folder itself when it holds none, so that whoever reads it says so.</param>
/// <param name="Problems">Files that are left out, a sentence each.</param>
public sealed record SoundFolder(IReadOnlyList<string> Files, IReadOnlyList<string> Problems)
{
    /// <summary>Looks into a folder.</summary>
    /// <param name="path">The folder, or a file.</param>
    /// <param name="reading">Where links in it may lead.</param>
    public static SoundFolder Of(string path, ReadPolicy reading)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(reading);
        if (!Directory.Exists(path))
        {
            return new SoundFolder([path], []);
        }

        var reach = new SessionReach(reading, path);
        var (files, problems) = (new List<string>(), new List<string>());
        foreach (var file in Directory.GetFiles(path).Where(AudioFileName.IsLikely).Order(StringComparer.Ordinal))
        {
            if (reach.LeadsOut(Path.GetFileName(file)) is { } why)
            {
                problems.Add($"{file} {why}.");
            }
            else
            {
                files.Add(file);
            }
        }

        return new SoundFolder(files.Count + problems.Count > 0 ? files : [path], problems);
    }
}
