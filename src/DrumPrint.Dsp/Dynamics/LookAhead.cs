namespace DrumPrint.Dsp.Dynamics;

/// <summary>Delays one channel by whole frames, so that a gain can move before the sound arrives.</summary>
internal sealed class LookAhead(int frames, int chunkFrames)
{
    // A ring: nothing that waits is moved.
    private readonly double[] _line = new double[frames + chunkFrames];
    private int _from;
    private int _to = frames;

    /// <summary>Puts a value where nothing has come yet.</summary>
    public void Fill(double value) => Array.Fill(_line, value);

    /// <summary>Delays a chunk in place.</summary>
    public void Process(Span<double> samples)
    {
        var first = Math.Min(samples.Length, _line.Length - _to);
        samples[..first].CopyTo(_line.AsSpan(_to));
        samples[first..].CopyTo(_line);
        _to = first < samples.Length ? samples.Length - first : _to + first;
        first = Math.Min(samples.Length, _line.Length - _from);
        _line.AsSpan(_from, first).CopyTo(samples);
        _line.AsSpan(0, samples.Length - first).CopyTo(samples[first..]);
        _from = first < samples.Length ? samples.Length - first : _from + first;
    }
}
