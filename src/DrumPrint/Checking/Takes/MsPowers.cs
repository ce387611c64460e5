using DrumPrint.Dsp;

namespace DrumPrint.Checking.Takes;

/// <summary>Mean power of each millisecond, as the sound comes in.</summary>
internal sealed class MsPowers(int rateHz, long frames)
{
    private readonly float[] _powers = new float[(int)(frames * 1000 / Math.Max(1, rateHz))];
    private int _slice;
    private long _frame;
    private double _energy;

    public void Add(AudioBlock block)
    {
        for (var at = 0; at < block.Frames && _slice < _powers.Length;)
        {
            var end = (long)(_slice + 1) * rateHz / 1000;
            var count = (int)Math.Min(block.Frames - at, end - _frame);
            for (var c = 0; c < block.Channels; c++)
            {
                foreach (var sample in block[c].Slice(at, count))
                {
                    _energy += sample * sample;
                }
            }

            at += count;
            _frame += count;
            if (_frame == end)
            {
                var length = end - ((long)_slice * rateHz / 1000);
                _powers[_slice++] = (float)(_energy / length / block.Channels);
                _energy = 0;
            }
        }
    }

    public float[] Read() => _powers;
}
