using System.Text;

namespace DrumPrint.Chains.Midi;

/// <summary>Makes a tempo map of a Standard MIDI File. Its first bar is bar 1, at tick 0.</summary>
/// <remarks>
/// A map has one tempo in a bar. A bar in which the file changes tempo gets the one tempo that makes it as long as it is there, so
/// every bar begins where the file says. Without a word of its own a file is in 4/4 at 120 BPM, as the format has it.
/// </remarks>
internal sealed class MidiTempo
{
    /// <summary>Last bar that a map can have; that of a file that says nothing of the song's end.</summary>
    public const int MostBars = 9999;

    private const double MicrosecondsPerMinute = 60_000_000;
    private const int UsualTempo = 500_000;
    private const int MostBeats = 32;
    private const int SmallestUnit = 5; // 2^5: thirty-seconds
    private const int MostDecimals = 6;
    private const double LowestBpm = 20;
    private const double HighestBpm = 400;
    private const int LongestName = 200;

    private readonly MidiFile _file;
    private readonly List<(long Tick, int Micros)> _tempi;
    private readonly List<TempoStretch> _stretches = [];
    private readonly List<(int Bar, long Tick, long PerBar)> _metres = [];
    private readonly List<int> _uneven = [];

    private MidiTempo(MidiFile file)
    {
        _file = file;
        _tempi = [.. file.Events.Where(e => e.Kind == MidiEventKind.Tempo).Select(e => (e.Tick, (e.Data.Span[0] << 16) | (e.Data.Span[1] << 8) | e.Data.Span[2]))];
    }

    /// <summary>Reads the bytes of a file.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="name">The file, as the chain names it.</param>
    /// <exception cref="MidiFormatException">It is broken, or says what no map can hold.</exception>
    public static TempoMap Read(byte[] bytes, string name) => new MidiTempo(MidiFile.Read(bytes)).Build(name);

    private TempoMap Build(string name)
    {
        var (bar, tick) = (1, 0L);
        var metres = _file.Events.Where(e => e.Kind == MidiEventKind.Metre).GroupBy(e => e.Tick).Select(g => (Tick: g.Key, Metre: Metre(g.Last()))).ToList();
        if (metres.Count == 0 || metres[0].Tick > 0)
        {
            metres.Insert(0, (0, (4, 4)));
        }

        for (var i = 0; i < metres.Count; i++)
        {
            var (beats, unit) = metres[i].Metre;
            var ticks = beats * 4L * _file.TicksPerQuarter;
            if (ticks % unit != 0)
            {
                throw new MidiFormatException(FormattableString.Invariant($"a bar of {beats}/{unit} is no whole number of ticks at {_file.TicksPerQuarter} in a quarter note. Export it with more of them."));
            }

            var perBar = ticks / unit;
            _metres.Add((bar, tick, perBar));
            var end = i + 1 < metres.Count ? metres[i + 1].Tick : long.MaxValue;
            Fill(bar, tick, perBar, end, beats, unit);
            if (end == long.MaxValue)
            {
                break;
            }

            if ((end - tick) % perBar != 0)
            {
                throw new MidiFormatException(FormattableString.Invariant($"the metre changes in the middle of bar {bar + ((end - tick) / perBar)}. Let it change where a bar begins, or give the short bar a metre of its own."));
            }

            bar = Bar(bar + ((end - tick) / perBar));
            tick = end;
        }

        var lastChange = _file.Events.Where(e => e.Kind != MidiEventKind.Marker).Select(e => e.Tick).DefaultIfEmpty().Max();
        var lastBar = _file.EndTick > lastChange ? BarAt(_file.EndTick - 1) : MostBars;

        // Behind a last bar in which the tempo changes, a stretch begins that no bar is left for.
        _stretches.RemoveAll(s => s.FromBar > lastBar);
        return new TempoMap(name, _stretches, Sections(lastBar), lastBar) { Remark = Remark() };
    }

    // One metre: a stretch begins with it, with every tempo, and around every bar in which the tempo changes.
    private void Fill(int firstBar, long from, long perBar, long end, int beats, int unit)
    {
        Add(firstBar, beats, unit, Bpm(TempoAt(from)));
        for (var i = FirstTempo(from); i < _tempi.Count && _tempi[i].Tick < end;)
        {
            var n = (_tempi[i].Tick - from) / perBar;
            var (start, bar) = (from + (n * perBar), Bar(firstBar + n));
            var (inside, next) = (FirstTempo(start + 1), FirstTempo(start + perBar));
            if (inside == next)
            {
                Add(bar, beats, unit, Bpm(TempoAt(start)));
            }
            else
            {
                _uneven.Add(bar);
                Add(bar, beats, unit, MicrosecondsPerMinute / Mean(start, perBar, inside, next));
                if (start + perBar < end)
                {
                    Add(Bar(bar + 1L), beats, unit, Bpm(TempoAt(start + perBar)));
                }
            }

            i = next;
        }
    }

    // Microseconds of a quarter note, over a whole bar in which tempi change.
    private double Mean(long start, long perBar, int first, int end)
    {
        var (sum, at, micros) = (0.0, start, TempoAt(start));
        for (var i = first; i < end; i++)
        {
            sum += (double)(_tempi[i].Tick - at) * micros;
            (at, micros) = _tempi[i];
        }

        return (sum + ((double)(start + perBar - at) * micros)) / perBar;
    }

    private int TempoAt(long tick)
    {
        var i = FirstTempo(tick + 1) - 1;
        return i < 0 ? UsualTempo : _tempi[i].Micros;
    }

    // Of all tempi the first that stands at a tick or after it; a file may have millions.
    private int FirstTempo(long tick)
    {
        var (low, high) = (0, _tempi.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = _tempi[middle].Tick < tick ? (middle + 1, high) : (low, middle);
        }

        return low;
    }

    private void Add(int bar, int beats, int unit, double bpm)
    {
        if (!(bpm is >= LowestBpm and <= HighestBpm))
        {
            throw new MidiFormatException(FormattableString.Invariant($"the tempo in bar {bar} is {bpm:0.###} BPM; {LowestBpm} to {HighestBpm} are read."));
        }

        if (_stretches.Count > 0 && _stretches[^1].FromBar == bar)
        {
            _stretches.RemoveAt(_stretches.Count - 1);
        }

        if (_stretches.Count == 0 || _stretches[^1] is var before && (before.Beats, before.BeatUnit, before.Bpm) != (beats, unit, bpm))
        {
            _stretches.Add(new TempoStretch(bar, beats, unit, bpm));
        }
    }

    // The format counts whole microseconds, so a plain tempo comes out a little off: the plainest one that would be written so is meant.
    private static double Bpm(int micros)
    {
        var exact = MicrosecondsPerMinute / Math.Max(1, micros);
        for (var decimals = 0; decimals <= MostDecimals; decimals++)
        {
            var plain = Math.Round(exact, decimals);
            if (plain > 0 && (int)Math.Round(MicrosecondsPerMinute / plain) == micros)
            {
                return plain;
            }
        }

        return exact;
    }

    private static (int Beats, int Unit) Metre(MidiEvent e) => e.Data.Span[0] is >= 1 and <= MostBeats && e.Data.Span[1] <= SmallestUnit
        ? (e.Data.Span[0], 1 << e.Data.Span[1])
        : throw new MidiFormatException(FormattableString.Invariant($"a metre of {e.Data.Span[0]} beats over 2^{e.Data.Span[1]}; 1 to {MostBeats} beats over 1, 2, 4, 8, 16 or 32 are read."));

    private int BarAt(long tick)
    {
        var (low, high) = (0, _metres.Count - 1);
        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            (low, high) = _metres[middle].Tick <= tick ? (middle, high) : (low, middle - 1);
        }

        var (bar, from, perBar) = _metres[low];
        return Bar(bar + ((tick - from) / perBar));
    }

    private static int Bar(long bar) => bar <= MostBars ? (int)bar : throw new MidiFormatException(FormattableString.Invariant($"it goes on past bar {MostBars}, the last that a tempo map holds."));

    // The first marker in a bar names it.
    private List<Section> Sections(int lastBar)
    {
        var sections = new List<Section>();
        foreach (var marker in _file.Events.Where(e => e.Kind == MidiEventKind.Marker))
        {
            var name = Plain(marker.Data.Span);
            if (name.Length > 0 && BarAt(marker.Tick) is var bar && bar <= lastBar && (sections.Count == 0 || sections[^1].FromBar < bar))
            {
                sections.Add(new Section(bar, name));
            }
        }

        return sections;
    }

    private string? Remark() => _uneven.Count == 0 ? null
        : FormattableString.Invariant($"The tempo file changes tempo inside {_uneven.Count} {(_uneven.Count == 1 ? "bar" : "bars")} (the first is bar {_uneven[0]}). Every bar begins where the file says; beats inside such a bar are evenly spaced.");

    // The format names no encoding; what is not UTF-8 is taken for Latin letters.
    private static string Plain(ReadOnlySpan<byte> bytes)
    {
        string text;
        try
        {
            text = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            text = Encoding.Latin1.GetString(bytes);
        }

        text = new string([.. text.Select(c => char.IsControl(c) ? ' ' : c)]).Trim();
        return text.Length > LongestName ? text[..LongestName].TrimEnd() : text;
    }
}
