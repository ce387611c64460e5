namespace DrumPrint.Dsp.Dynamics;

/// <summary>Delays one channel by whole frames, so that a gain can move before the sound arrives.</summary>
internal sealed class LookAhead(int frames, int chunkFrames)
{
    private readonly double[] _line = new double[frames + chunkFrames];

    /// <summary>Puts a value where nothing has come yet.</summary>
    public void Fill(double value) => Array.Fill(_line, value);

    /// <summary>Delays a chunk in place.</summary>
    public void Process(Span<double> samples)
    {
        samples.CopyTo(_line.AsSpan(frames));
        _line.AsSpan(0, samples.Length).CopyTo(samples);
        _line.AsSpan(samples.Length, frames).CopyTo(_line);
    }
}
