using DrumPrint.Language;

namespace DrumPrint.Audio;

/// <summary>One recording that lies in several files, because it was punched in: each is laid where its time stamp says.</summary>
/// <remarks>What no file covers is silence. Where two overlap, the one named later is heard, as on a recorder that punches in; it comes
/// in and goes over 5 ms. There the other is heard the less, so that one level stays one level. Where nothing lies below, every sample
/// stays as it is. Common practice, no source.</remarks>
internal sealed class Splice
{
    /// <summary>How long one file fades into another that it overlaps, in ms.</summary>
    public const double FadeMs = 5;

    private const long LongestS = 6 * 3600;

    private readonly (int In, int Out)[] _fades;

    private Splice(IReadOnlyList<PlacedFile> files)
    {
        Files = files;
        var first = files.MinBy(f => f.StartFrame)!;
        Info = first.Info with { Path = files[0].Path, Frames = files.Max(f => f.EndFrame) };
        _fades = [.. files.Select((_, i) => Fades(i))];
    }

    /// <summary>Its files, in the order in which they were named.</summary>
    public IReadOnlyList<PlacedFile> Files { get; }

    /// <summary>The form of all of them, the length of the whole, the time stamp of its start; the path is the first file's.</summary>
    public AudioFileInfo Info { get; }

    /// <summary>What tells it from every other recording.</summary>
    public string Key => string.Join('\n', Files.Select(f => FormattableString.Invariant($"{f.Path}\n{f.StartFrame}")));

    /// <summary>Where each file begins and in which form it is stored, for whoever needs to know whether the sound is the same.</summary>
    public string Places => string.Join(' ', Files.Select(f => FormattableString.Invariant($"{f.StartFrame}+{f.Info.Frames}/{f.Info.ValidBits}")));

    /// <summary>Opens the headers of files and lays them in place.</summary>
    /// <param name="files">What each is called, and its full path.</param>
    /// <param name="starts">Where each begins, in frames, where that was taken down; null to go by their time stamps.</param>
    /// <exception cref="AudioFileException">A file cannot be read, says no time, or does not fit the others.</exception>
    public static Splice Read(IReadOnlyList<(string Named, string Path)> files, IReadOnlyList<long>? starts = null)
    {
        List<AudioFileInfo> infos = [.. files.Select(f => Header(f.Path))];
        return Of([.. files.Zip(infos, (f, info) => (f.Named, info))], starts);
    }

    /// <summary>Lays files in place.</summary>
    /// <param name="files">What each is called, and its header.</param>
    /// <param name="starts">Where each begins, in frames, where that was taken down; null to go by their time stamps.</param>
    /// <exception cref="AudioFileException">A file says no time, or does not fit the others.</exception>
    public static Splice Of(IReadOnlyList<(string Named, AudioFileInfo Info)> files, IReadOnlyList<long>? starts = null)
    {
        var (first, form) = files[0];
        foreach (var (named, info) in files.Skip(1))
        {
            if ((info.SampleRate, info.Channels, info.Encoding) != (form.SampleRate, form.Channels, form.Encoding))
            {
                throw new AudioFileException(named, $"is {Form(info)}, and {Show.Name(first)} is {Form(form)}. Files of one track have one form: bring this one in the form of the others.");
            }
        }

        if (starts is null && files.FirstOrDefault(f => f.Info.Broadcast is null) is { Named: { } silent })
        {
            throw new AudioFileException(silent, "has no time stamp, so nobody can tell where in the take it belongs. Bring it as a broadcast wave file (BWF) with its time, or make one file of the take.");
        }

        List<long> stamps = [.. starts ?? files.Select(f => f.Info.Broadcast!.TimeReference)];
        var earliest = stamps.Min();
        var splice = new Splice([.. files.Select((f, i) => new PlacedFile(f.Info.Path, f.Info, stamps[i] - earliest))]);
        var covered = Enumerable.Range(0, files.Count).Where(i => splice.Above(i).Any(above => above.StartFrame <= splice.Files[i].StartFrame && above.EndFrame >= splice.Files[i].EndFrame)).ToList();
        if (covered.Count > 0)
        {
            var hidden = splice.Files[covered[0]];
            var above = splice.Above(covered[0]).First(a => a.StartFrame <= hidden.StartFrame && a.EndFrame >= hidden.EndFrame);
            var over = files[splice.Files.ToList().IndexOf(above)].Named;
            throw new AudioFileException(files[covered[0]].Named, $"is never heard: by their time stamps {Show.Name(over)} lies over all of it, and the file named later is the one that is heard. Take one of them out, or name this one after it.");
        }

        return splice.Info.Frames > LongestS * form.SampleRate
            ? throw new AudioFileException(files[stamps.IndexOf(stamps.Max())].Named, FormattableString.Invariant($"begins {splice.Files.Max(f => f.StartFrame) / form.SampleRate / 3600} hours after the first file of the track by its time stamp. Files of one track lie within {LongestS / 3600} hours; is it of another session?"))
            : splice;
    }

    /// <summary>Opens all files.</summary>
    /// <param name="hashes">What is hashed of their samples; the hash of whole files is left out.</param>
    public AudioReader Open(AudioHashes hashes) => new SplicedReader(this, hashes & ~AudioHashes.File);

    /// <summary>Lays samples of a file over what was laid before.</summary>
    /// <param name="file">Which one, from 0. Files are laid in order.</param>
    /// <param name="frame">Frame of the recording at which the samples begin; all lie in the file.</param>
    /// <param name="samples">Samples of the file.</param>
    /// <param name="into">What lies below, and then the result; as long.</param>
    public void Lay(int file, long frame, ReadOnlySpan<double> samples, Span<double> into)
    {
        var (fadeIn, fadeOut) = _fades[file];
        var (from, to) = (frame - Files[file].StartFrame, Files[file].EndFrame - frame);
        if (from >= fadeIn && to - samples.Length >= fadeOut)
        {
            samples.CopyTo(into);
            return;
        }

        for (var n = 0; n < samples.Length; n++)
        {
            var part = Math.Min(1, Math.Min((from + n + 1.0) / (fadeIn + 1), (to - n) / (fadeOut + 1.0)));
            into[n] = part == 1 ? samples[n] : (into[n] * (1 - part)) + (samples[n] * part);
        }
    }

    private static AudioFileInfo Header(string path)
    {
        using var reader = AudioReader.Open(path, AudioHashes.None);
        return reader.Info;
    }

    private static string Form(AudioFileInfo info) => FormattableString.Invariant($"at {info.SampleRate} Hz with {Words.Count(info.Channels, "channel")} of {info.Encoding.Word()} bits");

    private IEnumerable<PlacedFile> Above(int file) => Files.Skip(file + 1);

    // It fades only where one file below lasts as long as the fade: anything else would fade from silence.
    private (int In, int Out) Fades(int file)
    {
        var (start, end) = (Files[file].StartFrame, Files[file].EndFrame);
        var fade = (int)Math.Min(FadeMs * Info.SampleRate / 1000, Files[file].Info.Frames / 2);
        bool IsOver(long from, long to) => Files.Take(file).Any(f => f.StartFrame <= from && f.EndFrame >= to);
        return (IsOver(start, start + fade) ? fade : 0, IsOver(end - fade, end) ? fade : 0);
    }
}
