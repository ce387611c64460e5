using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Layering;

/// <summary>Lays the beginning of a sound over a hit: the place, to a part of a frame, and the way up of their best correlation.</summary>
/// <remarks>
/// <para>What is looked for is the largest correlation coefficient, either sign: Σ s x / √(Σ s² Σ x²), both sums over the same window. It is 1 where hit and
/// sound are alike, whatever their level, and however long they ring past the window.</para>
/// <para>It is taken of the waves, of their differences from frame to frame, and through a filter that takes out what rang before the hit
/// (<see cref="TailFilter"/>). The first is the likeliest place against noise that is white, the second against what falls by 6 dB per octave, the third against what
/// the drum itself, or another, still sounds (Knapp and Carter, IEEE Transactions on Acoustics, Speech, and Signal Processing 24, 1976: weights by
/// the spectrum of the noise). Where hit and sound are two drums the first counts. Where they are the same, that one does whose place strays least by
/// the bound of Cramér and Rao: (1 − ρ²) / (ρ² β²), with β² the bend of its peak.</para>
/// <para>Of two places that fit about as well the nearer one to the hit's beginning wins: a drum's note fits again, the other way round, half a period
/// later.</para>
/// <para>Between frames a correlation is read through a windowed sinc, at 16 places a frame and a parabola.</para>
/// </remarks>
internal sealed class HitMatcher
{
    private const double BeforeMs = 1;
    // By less than this two sounds are not the same one, and a sharp peak is chance.
    private const double Alike = 0.6;
    private const double TailMs = 20;
    private const double TailEndMs = 3;
    private const int Places = 16;
    private const double PlaceDb = 100;
    private const double PlaceTransition = 0.1;

    // Less of the largest power is silence, and like nothing.
    private const double Silence = 1e-10;

    // So far from the hit's beginning a place counts half.
    private const double HalfMs = 10;

    private readonly RealFft _fft;
    private readonly double[] _re;
    private readonly double[] _im;
    private readonly Template _wave;
    private readonly Template _edges;
    private readonly Template _fresh;
    private readonly TailFilter _tail;
    private readonly double[] _sound;
    private readonly double[] _stretch;
    private readonly double[] _values;
    private readonly double[] _powers;
    private readonly double[] _segment;
    private readonly double[][] _between;
    private readonly int _tailFrames;
    private readonly int _tailEnd;
    private readonly int _window;
    private readonly int _before;
    private readonly int _half;
    private readonly int _reach;
    private readonly int _sign;
    private readonly double _halfFrames;

    /// <param name="sound">The sound.</param>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="matchMs">How much of its beginning is laid over the hit.</param>
    /// <param name="reachMs">How far to either side.</param>
    /// <param name="sign">1 or −1 for one way up, 0 for the better one.</param>
    public HitMatcher(LayerSound sound, int sampleRate, double matchMs, double reachMs, int sign)
    {
        _sign = sign;
        _halfFrames = HalfMs * sampleRate / 1000;
        _before = TriggerTimes.Frames(BeforeMs, sampleRate);
        _half = SincKernel.Half(PlaceDb, PlaceTransition);
        _reach = Math.Max(1, TriggerTimes.Frames(reachMs, sampleRate));
        _window = _before + Math.Max(2, TriggerTimes.Frames(matchMs, sampleRate));
        _segment = new double[_window + (2 * Margin)];
        (_tailFrames, _tailEnd) = (TriggerTimes.Frames(TailMs, sampleRate), TriggerTimes.Frames(TailEndMs, sampleRate));
        _tail = new TailFilter(_tailFrames);
        _stretch = new double[Math.Max(0, _tailFrames + _tailEnd - _before - Margin) + TailFilter.Order + _segment.Length];
        var length = 2;
        while (length < _segment.Length)
        {
            length *= 2;
        }

        _fft = new RealFft(length);
        (_re, _im, _values, _powers) = (new double[_fft.Bins], new double[_fft.Bins], new double[length], new double[Math.Max(2 * Margin, _window)]);
        _between = [.. Enumerable.Range(1, Places - 1).Select(p => SincKernel.Taps(_half - 1 + ((double)p / Places), _half, PlaceDb))];
        double At(int n) => n >= 0 && n < sound.Middle.Length ? sound.Middle[n] : 0;
        var first = sound.Begins - _before;
        _sound = [.. Enumerable.Range(first - TailFilter.Order, _window + TailFilter.Order).Select(At)];
        _wave = Empty();
        Fill(_wave, _sound.AsSpan(TailFilter.Order));
        _edges = Empty();
        Fill(_edges, Enumerable.Range(first, _window).Select(n => At(n) - At(n - 1)).ToArray());
        _fresh = Empty();
    }

    /// <summary>Frames of the hit that are looked at, ahead of its beginning.</summary>
    public int FramesBefore => _stretch.Length - FramesAfter;

    /// <summary>Frames of the hit that are looked at, from its beginning on.</summary>
    public int FramesAfter => _segment.Length - _before - Margin;

    /// <summary>Where the stretch of the hit goes, <see cref="FramesBefore"/> and <see cref="FramesAfter"/> together.</summary>
    public Span<double> Stretch => _stretch;

    /// <summary>How far a match can lie from where the hit was looked for.</summary>
    public int ReachFrames => _reach + 1;

    private int Margin => _reach + _half + 2;

    /// <summary>Matches what lies in <see cref="Stretch"/>; null where there is nothing.</summary>
    public HitMatch? Match()
    {
        var from = _stretch.Length - _segment.Length;
        _stretch.AsSpan(from).CopyTo(_segment);
        var best = Best(_wave);
        for (var n = 0; n < _segment.Length; n++)
        {
            _segment[n] = _stretch[from + n] - _stretch[from + n - 1];
        }

        best = Better(best, Best(_edges));
        _tail.Learn(_stretch.AsSpan(FramesBefore - _tailEnd - _tailFrames, _tailFrames));
        _tail.Filter(_sound, _powers.AsSpan(0, _window));
        Fill(_fresh, _powers.AsSpan(0, _window));
        _tail.Filter(_stretch.AsSpan(from - TailFilter.Order), _segment);
        return Better(best, Best(_fresh));
    }

    // The surer place, once it is the same sound; the likeness is that of the one that fits best.
    private static HitMatch? Better(HitMatch? first, HitMatch? second)
    {
        if (first is not { } one || second is not { } other)
        {
            return first ?? second;
        }

        var isSurer = Math.Abs(other.Correlation) >= Alike && other.Spread < one.Spread;
        return (isSurer ? other : one) with { Likeness = Math.Max(one.Likeness, other.Likeness) };
    }

    private Template Empty() => new(new double[_fft.Bins], new double[_fft.Bins]);

    private void Fill(Template template, ReadOnlySpan<double> window)
    {
        template.Power = 0;
        foreach (var sample in window)
        {
            template.Power += sample * sample;
        }

        window.CopyTo(_values);
        Array.Clear(_values, window.Length, _values.Length - window.Length);
        _fft.Forward(_values, template.Re, template.Im);
    }

    private HitMatch? Best(Template template)
    {
        Correlate(template);
        var most = Powers();
        if (!(most > 0) || !(template.Power > 0))
        {
            return null;
        }

        var best = -1;
        var highest = 0.0;
        var (first, last) = (Margin - _reach, Margin + _reach);
        double Fit(int lag) => _powers[lag] > Silence * most ? Height(_values[lag] / Math.Sqrt(_powers[lag])) : 0;
        for (var lag = first; lag <= last; lag++)
        {
            var height = Fit(lag) * Nearness(lag);
            (best, highest) = height > highest ? (lag, height) : (best, highest);
        }

        if (best < 0)
        {
            return null;
        }

        // Nearness has chosen the wave; in it the place is where the fit is best.
        var (near, far) = (Math.Max(first, best - _before), Math.Min(last, best + _before));
        for (var lag = near; lag <= far; lag++)
        {
            best = Fit(lag) > Fit(best) ? lag : best;
        }

        var sign = _sign != 0 ? _sign : _values[best] < 0 ? -1 : 1;
        var (place, peak, bend) = Peak(best, sign);
        var fit = Math.Clamp(peak / Math.Sqrt(template.Power), -1, 1);
        return new HitMatch(place - Margin, sign * fit, Math.Abs(fit), _powers[best] / template.Power, fit > 0 && bend > 0 ? (1 - (fit * fit)) / (fit * fit * bend) : double.PositiveInfinity);
    }

    private void Correlate(Template template)
    {
        _segment.CopyTo(_values, 0);
        Array.Clear(_values, _segment.Length, _values.Length - _segment.Length);
        _fft.Forward(_values, _re, _im);
        for (var k = 0; k < _re.Length; k++)
        {
            var (re, im) = (template.Re[k], template.Im[k]);
            (_re[k], _im[k]) = ((_re[k] * re) + (_im[k] * im), (_im[k] * re) - (_re[k] * im));
        }

        _fft.Inverse(_re, _im, _values);
    }

    // The power under the window at each lag, and the largest of them.
    private double Powers()
    {
        var (power, most) = (0.0, 0.0);
        for (var n = 0; n < _window; n++)
        {
            power += _segment[n] * _segment[n];
        }

        for (var lag = 0; lag < 2 * Margin; lag++)
        {
            _powers[lag] = Math.Max(0, power);
            most = Math.Max(most, power);
            power += (_segment[lag + _window] * _segment[lag + _window]) - (_segment[lag] * _segment[lag]);
        }

        return most;
    }

    private double Nearness(int lag)
    {
        var distance = (lag - Margin) / _halfFrames;
        return 1 / (1 + (distance * distance));
    }

    private double Height(double value) => _sign == 0 ? Math.Abs(value) : _sign * value;

    // The highest place within a frame of the best lag, and how sharp it is.
    private (double Place, double Height, double Bend) Peak(int lag, int sign)
    {
        var (best, height) = (0, sign * At(lag, 0));
        for (var place = 1 - Places; place < Places; place++)
        {
            var value = sign * At(lag, place);
            (best, height) = value > height ? (place, value) : (best, height);
        }

        var (before, after) = (sign * At(lag, best - 1), sign * At(lag, best + 1));
        var bend = before - (2 * height) + after;
        var part = bend < 0 ? Math.Clamp(0.5 * (before - after) / bend, -0.5, 0.5) : 0;
        return (lag + ((best + part) / Places), height - (0.25 * (before - after) * part), height > 0 ? -bend * Places * Places / height : 0);
    }

    // The coefficient, but for the sound's own power, at a lag and so many sixteenths of a frame.
    private double At(int lag, int place)
    {
        var whole = lag + (place >= 0 ? place / Places : -((Places - 1 - place) / Places));
        var part = place - ((whole - lag) * Places);
        if (part == 0)
        {
            return _values[whole] / Math.Sqrt(_powers[whole]);
        }

        var sum = 0.0;
        var from = _values.AsSpan(whole - _half + 1, 2 * _half);
        var taps = _between[part - 1];
        for (var i = 0; i < taps.Length; i++)
        {
            sum += taps[i] * from[i];
        }

        return sum / Math.Sqrt(PowerBetween(whole, (double)part / Places));
    }

    // A cubic through four lags, with the slopes of their neighbours; never under the lower of the two it lies between.
    private double PowerBetween(int lag, double part)
    {
        var (a, b, c, d) = (_powers[lag - 1], _powers[lag], _powers[lag + 1], _powers[lag + 2]);
        var curve = b + (0.5 * part * (c - a + (part * ((2 * a) - (5 * b) + (4 * c) - d + (part * ((3 * (b - c)) + d - a))))));
        return Math.Max(Math.Max(curve, Math.Min(b, c)), double.Epsilon);
    }

    // The window of the sound as a spectrum, and its power.
    private sealed class Template(double[] re, double[] im)
    {
        public double[] Re { get; } = re;

        public double[] Im { get; } = im;

        public double Power { get; set; }
    }
}
