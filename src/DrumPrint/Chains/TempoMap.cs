using System.Globalization;

namespace DrumPrint.Chains;

/// <summary>Where bars and beats fall in time.</summary>
/// <remarks>Time 0 is the start of the first bar of the file.</remarks>
public sealed class TempoMap
{
    private readonly TempoStretch[] _stretches;
    private readonly double[] _startSeconds;

    /// <param name="file">The file it was read from, as the chain names it.</param>
    /// <param name="stretches">Stretches of constant metre and tempo by rising first bar; the first starts the song.</param>
    /// <param name="sections">Named places, by rising bar.</param>
    /// <param name="lastBar">Last bar of the song.</param>
    public TempoMap(string file, IReadOnlyList<TempoStretch> stretches, IReadOnlyList<Section> sections, int lastBar)
    {
        ArgumentNullException.ThrowIfNull(stretches);
        File = file;
        Sections = sections;
        LastBar = lastBar;
        _stretches = [.. stretches];
        _startSeconds = new double[_stretches.Length];
        for (var i = 1; i < _stretches.Length; i++)
        {
            _startSeconds[i] = _startSeconds[i - 1] + ((_stretches[i].FromBar - _stretches[i - 1].FromBar) * _stretches[i - 1].SecondsPerBar);
        }
    }

    /// <summary>A map that a chain names and that is not there: its name is known, and nothing of what it holds.</summary>
    internal static TempoMap Missing(string file) => new(file, [], [], 0);

    public string File { get; }

    /// <summary>What the file says and the map cannot hold, in sentences; null for most.</summary>
    public string? Remark { get; init; }

    /// <summary>Whether only the name is known; bars and times are then not to be asked for.</summary>
    public bool IsMissing => _stretches.Length == 0;

    public IReadOnlyList<TempoStretch> Stretches => _stretches;

    public IReadOnlyList<Section> Sections { get; }

    public int FirstBar => _stretches[0].FromBar;

    public int LastBar { get; }

    /// <summary>Time of a place given as a bar number; the fraction runs through the bar (23.5 is the middle of bar 23).</summary>
    public double SecondsAtBar(double bar)
    {
        var i = Array.FindLastIndex(_stretches, s => s.FromBar <= bar);
        i = Math.Max(i, 0);
        return _startSeconds[i] + ((bar - _stretches[i].FromBar) * _stretches[i].SecondsPerBar);
    }

    /// <summary>The place of a time, as a bar number with a fraction.</summary>
    public double BarAtSeconds(double seconds)
    {
        var i = Math.Max(0, Array.FindLastIndex(_startSeconds, s => s <= seconds));
        return _stretches[i].FromBar + ((seconds - _startSeconds[i]) / _stretches[i].SecondsPerBar);
    }

    /// <summary>Bar and beat of a time to a hundredth of a beat, such as <c>24:3.25</c>; null after the last bar.</summary>
    public string? BarAndBeat(double seconds)
    {
        var place = BarAtSeconds(Math.Max(0, seconds));
        var bar = Math.Floor(place);
        var beat = Math.Round((place - bar) * StretchAt(place).Beats, 2);
        (bar, beat) = beat >= StretchAt(place).Beats ? (bar + 1, 0) : (bar, beat);
        return bar > LastBar ? null : string.Create(CultureInfo.InvariantCulture, $"{bar:0}:{1 + beat:0.00}");
    }

    /// <summary>The same bars under other numbers.</summary>
    /// <param name="firstBar">Number of the first one.</param>
    /// <param name="mostBars">Highest number there can be; bars behind it are left off.</param>
    public TempoMap NumberedFrom(int firstBar, int mostBars)
    {
        var more = firstBar - FirstBar;
        return more == 0 ? this : new TempoMap(
            File,
            [.. _stretches.Select(s => s with { FromBar = s.FromBar + more }).Where(s => s.FromBar <= mostBars)],
            [.. Sections.Select(s => s with { FromBar = s.FromBar + more }).Where(s => s.FromBar <= mostBars)],
            Math.Min(LastBar + more, mostBars))
        {
            Remark = Remark,
        };
    }

    /// <summary>The map as far as a recording goes: the bars that begin before its end. A map may be longer than what was played.</summary>
    public TempoMap UpTo(double seconds)
    {
        var last = (int)Math.Clamp(Math.Ceiling(BarAtSeconds(seconds) - 1e-9) - 1, FirstBar, LastBar);
        return last == LastBar ? this : new TempoMap(File, [.. _stretches.Where(s => s.FromBar <= last)], [.. Sections.Where(s => s.FromBar <= last)], last) { Remark = Remark };
    }

    /// <summary>The stretch that holds a bar.</summary>
    public TempoStretch StretchAt(double bar) => _stretches[Math.Max(0, Array.FindLastIndex(_stretches, s => s.FromBar <= bar))];
}

/// <summary>Bars of one metre and tempo.</summary>
/// <param name="FromBar">First bar.</param>
/// <param name="Beats">Beats in a bar.</param>
/// <param name="BeatUnit">Note value of a beat: 4 for quarters.</param>
/// <param name="Bpm">Quarter notes per minute.</param>
public sealed record TempoStretch(int FromBar, int Beats, int BeatUnit, double Bpm)
{
    public double SecondsPerBeat => 60 / Bpm * 4 / BeatUnit;

    public double SecondsPerBar => Beats * SecondsPerBeat;
}

/// <summary>A named place in the song.</summary>
public sealed record Section(int FromBar, string Name);
