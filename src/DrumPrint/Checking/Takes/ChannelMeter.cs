namespace DrumPrint.Checking.Takes;

/// <summary>Looks at one channel as it passes by.</summary>
internal sealed class ChannelMeter(int rateHz)
{
    private const double ClipLevel = 0.99;
    private const int ClipRun = 3;
    private const int TopRun = 4;
    private const int Most = 512;
    private const double ZeroS = 0.010;
    private const double LeastStep = 0.003; // −50 dBFS
    private const double StepOver = 20;
    private const double StepAlone = 4;

    private readonly List<Stretch> _clips = [];
    private readonly List<Stretch> _high = [];
    private readonly List<Stretch> _low = [];
    private readonly List<Stretch> _zeros = [];
    private readonly List<long> _steps = [];
    private readonly long _leastZeros = (long)(ZeroS * rateHz);
    private readonly int _sliceFrames = Math.Max(8, rateHz / 1000);
    private long _frame;
    private double _first;
    private double _last;
    private double _peak;
    private long _peakFrame;
    private double _energy;
    private double _sum;
    private double _max = double.NegativeInfinity;
    private double _min = double.PositiveInfinity;
    private int _clipCount;
    private long _clip;
    private long _equal;
    private long _zero;
    private Slice _before;
    private Slice _now;
    private Slice _waiting;

    public void Add(ReadOnlySpan<double> samples)
    {
        foreach (var sample in samples)
        {
            Add(sample);
        }
    }

    public ChannelFigures Read()
    {
        EndRuns(double.NaN);
        return new ChannelFigures
        {
            Peak = _peak,
            PeakFrame = _peakFrame,
            Energy = _energy,
            Mean = _frame > 0 ? _sum / _frame : 0,
            First = _first,
            Last = _last,
            Clips = _clips,
            ClipCount = _clipCount,
            Tops = [.. (_max > 0 ? _high : []).Concat(_min < 0 ? _low : []).OrderBy(s => s.Frame)],
            Zeros = _zeros,
            Steps = _steps,
        };
    }

    private void Add(double x)
    {
        var size = Math.Abs(x);
        _energy += x * x;
        _sum += x;
        if (size > _peak)
        {
            (_peak, _peakFrame) = (size, _frame);
        }

        if (_frame == 0)
        {
            (_first, _last, _equal) = (x, x, 0);
        }

        Step(Math.Abs(x - _last));
        EndRuns(x);
        _clip = size >= ClipLevel ? _clip + 1 : 0;
        _zero = x == 0 ? _zero + 1 : 0;
        _equal = x == _last ? _equal + 1 : 1;
        if (x > _max)
        {
            _max = x;
            _high.Clear();
        }

        if (x < _min)
        {
            _min = x;
            _low.Clear();
        }

        _last = x;
        _frame++;
    }

    // Runs that the next sample does not go on with.
    private void EndRuns(double next)
    {
        if (_clip >= ClipRun && !(Math.Abs(next) >= ClipLevel))
        {
            _clipCount++;
            Note(_clips, _clip);
        }

        if (_zero >= _leastZeros && next != 0)
        {
            Note(_zeros, _zero);
        }

        if (_equal >= TopRun && next != _last)
        {
            if (_last == _max)
            {
                Note(_high, _equal);
            }
            else if (_last == _min)
            {
                Note(_low, _equal);
            }
        }
    }

    private void Note(List<Stretch> list, long frames)
    {
        if (list.Count < Most)
        {
            list.Add(new Stretch(_frame - frames, frames));
        }
    }

    // A cut leaves one step far above those of the milliseconds around it; the start of a hit leaves many.
    private void Step(double step)
    {
        _now.Sum += step;
        if (step > _now.Largest)
        {
            _now.Next = _frame - _now.Frame > 1 ? _now.Largest : _now.Next;
            (_now.Largest, _now.Frame) = (step, _frame);
        }
        else if (step > _now.Next && _frame - _now.Frame > 1)
        {
            _now.Next = step;
        }

        if (++_now.Frames < _sliceFrames)
        {
            return;
        }

        var around = Math.Max(_before.Mean, Math.Max(_now.Mean, _waiting.MeanOfOthers));
        if (_waiting.Largest > LeastStep && _waiting.Largest > StepOver * around && _waiting.Largest > StepAlone * _waiting.Next && _steps.Count < Most)
        {
            _steps.Add(_waiting.Frame);
        }

        (_before, _waiting, _now) = (_waiting, _now, default);
    }

    private struct Slice
    {
        public double Sum;
        public double Largest;
        public double Next;
        public long Frame;
        public int Frames;

        public readonly double Mean => Frames > 0 ? Sum / Frames : 0;

        public readonly double MeanOfOthers => Frames > 1 ? (Sum - Largest) / (Frames - 1) : 0;
    }
}
