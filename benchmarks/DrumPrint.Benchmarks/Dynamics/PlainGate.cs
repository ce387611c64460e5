namespace DrumPrint.Benchmarks.Dynamics;

/// <summary>A gate as a textbook writes it: a state machine, frame by frame, a logarithm for the level and a power for the
/// ramp. The same levels, times and look-ahead as the project's; the yardstick for its speed.</summary>
internal sealed class PlainGate(int aheadFrames, double? keyHighPassHz = null)
{
    private const double OpenDb = -36;
    private const double CloseDb = -42;
    private const double RangeDb = -60;
    private const int AttackFrames = 14;
    private const int HoldFrames = 2880;
    private const int ReleaseFrames = 7200;

    private readonly PlainHighPass[]? _filters = keyHighPassHz is { } hz ? [new(hz, 48000), new(hz, 48000)] : null;
    private readonly double[][] _lines = [new double[Math.Max(1, aheadFrames)], new double[Math.Max(1, aheadFrames)]];
    private int _write;
    private bool _isOpen;
    private int _below;
    private double _gainDb = RangeDb;

    public void Process(double[][] channels)
    {
        for (var n = 0; n < channels[0].Length; n++)
        {
            var level = 0.0;
            for (var c = 0; c < channels.Length; c++)
            {
                level = Math.Max(level, Math.Abs(_filters is null ? channels[c][n] : _filters[c].Next(channels[c][n])));
            }

            var gain = Next(20 * Math.Log10(Math.Max(level, 1e-30)));
            for (var c = 0; c < channels.Length; c++)
            {
                var input = channels[c][n];
                var delayed = aheadFrames == 0 ? input : _lines[c][_write];
                _lines[c][_write] = input;
                channels[c][n] = delayed * gain;
            }

            _write = _write + 1 >= aheadFrames ? 0 : _write + 1;
        }
    }

    private double Next(double db)
    {
        _below = db >= CloseDb ? 0 : _below + 1;
        _isOpen = db >= OpenDb || (_isOpen && _below <= HoldFrames + aheadFrames);
        _gainDb = _isOpen ? Math.Min(0, _gainDb - (RangeDb / AttackFrames)) : Math.Max(RangeDb, _gainDb + (RangeDb / ReleaseFrames));
        return Math.Pow(10, _gainDb / 20);
    }
}
