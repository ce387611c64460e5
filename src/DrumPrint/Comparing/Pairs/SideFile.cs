using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Dsp;
using DrumPrint.Tickets;

namespace DrumPrint.Comparing.Pairs;

/// <summary>A sound file to compare, in song time.</summary>
internal sealed class SideFile
{
    private const int BlockFrames = 1 << 14;

    // +300 dBFS: a float may hold far more, whose power no number holds.
    private const double LoudestSample = 1e15;

    private SideFile(string name, AudioFileInfo info, long startFrame)
    {
        Name = name;
        Info = info;
        StartFrame = startFrame;
    }

    /// <summary>What the user reads.</summary>
    public string Name { get; }

    public AudioFileInfo Info { get; }

    /// <summary>Song time of its first frame.</summary>
    public long StartFrame { get; }

    public long EndFrame => StartFrame + Info.Frames;

    /// <summary>Bars and beats; null when unknown.</summary>
    public TempoMap? Tempo { get; init; }

    /// <summary>Work of the processors on the way to this print; empty for a file that was not rendered here.</summary>
    public IReadOnlyList<GainLine> Gains { get; init; } = [];

    /// <summary>A file as it lies on the disk.</summary>
    /// <exception cref="AudioFileException">It cannot be read, or has more than two channels.</exception>
    public static SideFile Open(string path, string? name = null, TempoMap? tempo = null)
    {
        var info = Header(path);
        var start = info.Broadcast is { Originator: "DrumPrint" } words ? words.TimeReference : 0;
        return new SideFile(name ?? Path.GetFileName(path), info, start) { Tempo = tempo ?? TempoOf(path) };
    }

    /// <summary>A file rendered for comparing.</summary>
    public static SideFile Rendered(string path, string name, long startFrame, TempoMap? tempo, IReadOnlyList<GainLine> gains) =>
        new(name, Header(path), startFrame) { Tempo = tempo, Gains = gains };

    /// <summary>A stretch of song time; what lies outside the file is silence.</summary>
    public Sound Read(long fromFrame, int frames)
    {
        var channels = new double[Info.Channels][];
        for (var channel = 0; channel < channels.Length; channel++)
        {
            channels[channel] = new double[frames];
        }

        var lead = (int)Math.Clamp(StartFrame - fromFrame, 0, frames);
        using var reader = AudioReader.Open(Info.Path, AudioHashes.None);
        reader.Skip(Math.Max(0, fromFrame - StartFrame));
        for (var at = lead; at < frames;)
        {
            var read = reader.Read(new AudioBlock(channels, at, Math.Min(BlockFrames, frames - at)));
            if (read == 0)
            {
                break;
            }

            at += read;
        }

        ThrowIfWild(channels, fromFrame);

        return new Sound(Info.SampleRate, channels);
    }

    /// <summary>Energies of all slices of a stretch, for finding hits, without holding the stretch.</summary>
    public double[] Slices(long fromFrame, long frames)
    {
        var rate = Info.SampleRate;
        var slices = new double[frames * Onsets.SlicesPerSecond / rate];
        for (var first = 0; first < slices.Length; first += Onsets.SlicesPerSecond * 60)
        {
            var last = Math.Min(slices.Length, first + (Onsets.SlicesPerSecond * 60));
            var start = Onsets.FrameAt(first, rate);
            var part = Read(fromFrame + start, (int)(Onsets.FrameAt(last, rate) - start));
            Onsets.Slices(part, last - first).CopyTo(slices.AsSpan(first));
        }

        return slices;
    }

    private void ThrowIfWild(double[][] channels, long fromFrame)
    {
        for (var c = 0; c < channels.Length; c++)
        {
            var n = Array.FindIndex(channels[c], x => !(Math.Abs(x) <= LoudestSample));
            if (n >= 0)
            {
                var what = double.IsFinite(channels[c][n]) ? "stands more than 300 dB above full scale" : "is not a number";
                throw new AudioFileException(Info.Path, FormattableString.Invariant($"frame {fromFrame - StartFrame + n} of channel {c + 1} {what}; the program that wrote the file went wrong there."));
            }
        }
    }

    private static AudioFileInfo Header(string path)
    {
        using var reader = AudioReader.Open(path, AudioHashes.None);
        var info = reader.Info;
        return info.Channels <= 2
            ? info
            : throw new AudioFileException(path, $"has {info.Channels} channels; prints of one or two channels can be compared.");
    }

    // A print holds the tempo map only where it depends on it; the ticket beside it always does.
    private static TempoMap? TempoOf(string path)
    {
        var folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        var name = Path.GetFileName(path);
        return TicketFiles.ReadableIn(folder).FirstOrDefault(t => t.Prints.Any(p => p.FileName == name))?.Chain.Song.Tempo;
    }
}
