using System.Globalization;
using DrumPrint.Language;
using DrumPrint.Listening;

namespace DrumPrint.Beginning;

/// <summary>What a person says that files are, each as <c>FILE=NAME</c>; their own names count no more.</summary>
internal sealed class CalledFiles
{
    private readonly List<(string File, MicrophoneName Name)> _called = [];

    /// <param name="called">The words, such as <c>0003=snare top</c>, or <c>take.wav#7=hat</c> for a channel.</param>
    /// <exception cref="UsageException">One is not of that form, or says nothing that people call a microphone.</exception>
    public CalledFiles(IEnumerable<string> called)
    {
        foreach (var words in called)
        {
            var cut = words.LastIndexOf('=');
            if (cut <= 0 || cut == words.Length - 1)
            {
                throw new UsageException($"--called {words}: write the file and what it is, such as \"0003.wav=snare top\".");
            }

            var (file, said) = (words[..cut].Trim(), words[(cut + 1)..].Trim());
            var name = MicrophoneName.Of(said.Replace('/', ' ').Replace('.', ' '));
            if (name.Role is Role.Unknown or Role.Other)
            {
                throw new UsageException($"--called {words}: {Show.Name(said)} is no microphone of a kit that is known here. Write it as people do: kick in, snare top, hat, tom 1, floor tom, oh l, room r, shaker.");
            }

            _called.Add((file, name with { IsTold = true }));
        }
    }

    /// <summary>What somebody says that a file is; null where nobody does.</summary>
    /// <param name="path">The file, from the session's folder.</param>
    /// <param name="channel">Its channel, from 1; null for a file of one or two.</param>
    public MicrophoneName? Of(string path, int? channel) => _called.Find(c => Fits(c.File, path, channel)).Name;

    /// <summary>Refuses words that fit no file.</summary>
    /// <param name="files">The files there are.</param>
    /// <exception cref="UsageException">Some fit none.</exception>
    public void RequireAll(IReadOnlyList<RawFile> files)
    {
        foreach (var (file, _) in _called.Where(c => !files.Any(f => f.Punched.Append(f.Path).Any(p => Fits(c.File, p, f.Channel)))))
        {
            var nearest = Nearest.Word(file, files.Select(f => f.Path));
            throw new UsageException($"--called {file}: there is no such sound file here.{(nearest is null ? "" : $" Did you mean {Show.Name(nearest)}?")}");
        }
    }

    // By its path, its name or its name without the ending; with the channel behind a number sign.
    private static bool Fits(string said, string path, int? channel)
    {
        var end = channel is { } number ? "#" + number.ToString(CultureInfo.InvariantCulture) : "";
        return new[] { path, Path.GetFileName(path), Path.GetFileNameWithoutExtension(path) }.Any(p => string.Equals(said, p + end, StringComparison.OrdinalIgnoreCase));
    }
}
