using System.Globalization;
using System.Text;
using DrumPrint.Chains;
using NAudio.Midi;

namespace DrumPrint.Delivering;

/// <summary>The tempo map as a Standard MIDI File and as a text with the frame of every bar.</summary>
/// <remarks>
/// A Standard MIDI File (RP-001, 1.0) counts whole microseconds in a quarter note. So 104 BPM become 576 923, which is 0.13 ppm
/// off. The text is exact to a frame. Tick 0 and frame 0 are the start of the first bar of the map.
/// </remarks>
internal static class TempoFiles
{
    /// <summary>Ticks of a quarter note; every metre the chain takes divides it, down to thirty-seconds.</summary>
    public const int TicksPerQuarter = 960;

    private const double MicrosecondsPerMinute = 60_000_000;
    private const int ClocksPerQuarter = 24;
    private const int ThirtySecondsPerQuarter = 8;

    /// <summary>The bytes of a Standard MIDI File of type 0: name, metres, tempi, section names.</summary>
    public static byte[] Midi(TempoMap tempo, string title)
    {
        var events = new MidiEventCollection(0, TicksPerQuarter);
        var track = events.AddTrack();
        track.Add(new TextEvent(Plain(title), MetaEventType.SequenceTrackName, 0));
        long tick = 0;
        var starts = new Dictionary<int, long>();
        for (var i = 0; i < tempo.Stretches.Count; i++)
        {
            var stretch = tempo.Stretches[i];
            var ticksPerBar = stretch.Beats * 4L * TicksPerQuarter / stretch.BeatUnit;
            track.Add(new TimeSignatureEvent(tick, stretch.Beats, int.TrailingZeroCount(stretch.BeatUnit), ClocksPerQuarter * 4 / stretch.BeatUnit, ThirtySecondsPerQuarter));
            track.Add(new TempoEvent((int)Math.Round(MicrosecondsPerMinute / stretch.Bpm), tick));
            var end = i + 1 < tempo.Stretches.Count ? tempo.Stretches[i + 1].FromBar : tempo.LastBar + 1;
            for (var bar = stretch.FromBar; bar < end; bar++, tick += ticksPerBar)
            {
                starts[bar] = tick;
            }
        }

        foreach (var section in tempo.Sections)
        {
            if (starts.TryGetValue(section.FromBar, out var at))
            {
                track.Add(new TextEvent(Plain(section.Name), MetaEventType.Marker, at));
            }
        }

        track.Add(new MetaEvent(MetaEventType.EndTrack, 0, tick));
        events.PrepareForExport();
        using var stream = new MemoryStream();
        MidiFile.Export(stream, events);
        return stream.ToArray();
    }

    /// <summary>A line for each bar: number, metre, tempo, seconds, frame, section.</summary>
    public static string Text(TempoMap tempo, Song song)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"# {song.Title}, version {song.Version}: where bars begin. Frames at {song.RateHz} Hz, counted from 0 at the start of every file.\n");
        text.Append("# bar\tmetre\tbpm\tseconds\tframe\tsection\n");
        for (var bar = tempo.FirstBar; bar <= tempo.LastBar; bar++)
        {
            var stretch = tempo.StretchAt(bar);
            text.Append(CultureInfo.InvariantCulture, $"{bar}\t{stretch.Beats}/{stretch.BeatUnit}\t{stretch.Bpm:0.######}\t{tempo.SecondsAtBar(bar):0.000000}\t{Frame(tempo, bar, song)}\t{tempo.Sections.FirstOrDefault(s => s.FromBar == bar)?.Name}\n");
        }

        text.Append(CultureInfo.InvariantCulture, $"end\t\t\t{tempo.SecondsAtBar(tempo.LastBar + 1):0.000000}\t{Frame(tempo, tempo.LastBar + 1, song)}\t\n");
        return text.ToString();
    }

    /// <summary>The frame nearest to the start of a bar.</summary>
    public static long Frame(TempoMap tempo, int bar, Song song) => (long)Math.Round(tempo.SecondsAtBar(bar) * song.RateHz);

    // The format knows no encoding beyond ASCII that every reader shares.
    private static string Plain(string text) => string.Concat(text.Select(c => c is >= ' ' and <= '~' ? c : '?'));
}
