namespace DrumPrint.Benchmarks.Dynamics;

/// <summary>A gate as a textbook writes it: a state machine, frame by frame, a logarithm for the level and a power for the
/// ramp. The same states, look-ahead and ramps in dB as the project's; the yardstick for its speed.</summary>
internal sealed class PlainGate(double openDb, double closeDb, double rangeDb, int aheadFrames, int attackFrames, int holdFrames, int releaseFrames)
{
    private readonly double[][] _lines = [new double[Math.Max(1, aheadFrames)], new double[Math.Max(1, aheadFrames)]];
    private int _write;
    private bool _isOpen;
    private int _below;
    private double _gainDb = rangeDb;

    public void Process(double[][] channels)
    {
        for (var n = 0; n < channels[0].Length; n++)
        {
            var level = 0.0;
            foreach (var samples in channels)
            {
                level = Math.Max(level, Math.Abs(samples[n]));
            }

            var db = 20 * Math.Log10(Math.Max(level, 1e-30));
            if (db >= openDb)
            {
                _isOpen = true;
            }

            _below = db >= closeDb ? 0 : _below + 1;
            if (_below > holdFrames + aheadFrames)
            {
                _isOpen = false;
            }

            _gainDb = _isOpen ? Math.Min(0, _gainDb - (rangeDb / attackFrames)) : Math.Max(rangeDb, _gainDb + (rangeDb / releaseFrames));
            var gain = Math.Pow(10, _gainDb / 20);
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
}
