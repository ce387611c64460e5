namespace DrumPrint.Dsp.Dynamics;

/// <summary>The magnitude of what a gate listens to, of several channels the largest, frame by frame.</summary>
internal sealed class LinkedPeak(KeyInput input, int chunkFrames)
{
    private readonly double[] _other = new double[DecibelKernel.WholeVectors(chunkFrames)];

    /// <summary>Whether another signal is listened to.</summary>
    public bool IsExternal => input.IsExternal;

    /// <summary>Reads a chunk.</summary>
    /// <param name="block">The signal.</param>
    /// <param name="key">The key, if there is one.</param>
    /// <param name="peaks">Receives the magnitudes; length a multiple of the vector's.</param>
    public void Read(AudioBlock block, AudioBlock key, Span<double> peaks)
    {
        input.Read(block, key, 0, peaks[..block.Frames]);
        StretchMath.Magnitudes(peaks);
        for (var channel = 1; channel < input.Channels; channel++)
        {
            var other = _other.AsSpan(0, peaks.Length);
            input.Read(block, key, channel, other[..block.Frames]);
            StretchMath.Magnitudes(other);
            StretchMath.Raise(peaks, other);
        }
    }
}
