using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Masking;

/// <summary>How a signal is cut into frames: 20 ms under half a sine. One begins every third of a hundredth of a second, every half or every
/// whole one, whichever is a whole number of samples.</summary>
/// <remarks>The squares of the window add up to a constant, so frames that are not changed add up to the signal. Source: Princen and Bradley,
/// IEEE Transactions on Acoustics, Speech, and Signal Processing 34(5), 1986 (from memory).</remarks>
internal sealed class SpillFrames
{
    private const int BlocksPerSecond = 100;

    private readonly int _sampleRate;

    /// <param name="sampleRate">Hertz.</param>
    public SpillFrames(int sampleRate)
    {
        _sampleRate = sampleRate;
        var block = Math.Max(2, sampleRate / BlocksPerSecond);
        Step = block % 3 == 0 ? block / 3 : block % 2 == 0 ? block / 2 : block;
        Length = 2 * block;
        Transform = 2;
        while (Transform < Length)
        {
            Transform *= 2;
        }

        Window = new double[Length];
        var sum = 0.0;
        for (var n = 0; n < Length; n++)
        {
            Window[n] = Elementary.Sin(Math.PI * (n + 0.5) / Length);
            sum += Window[n];
        }

        ToPower = 4 / (sum * sum);
        Overlap = 2.0 * Step / Length;
    }

    /// <summary>Samples from the start of one frame to that of the next.</summary>
    public int Step { get; }

    /// <summary>Samples of a frame, a whole number of steps.</summary>
    public int Length { get; }

    /// <summary>Points of its transform; past the frame's end they are zero.</summary>
    public int Transform { get; }

    /// <summary>Bins of its spectrum.</summary>
    public int Bins => (Transform / 2) + 1;

    /// <summary>The half sine.</summary>
    public double[] Window { get; }

    /// <summary>Makes a squared bin a power: 1 for a sine at full scale.</summary>
    public double ToPower { get; }

    /// <summary>Makes frames that went under the window twice add up to the signal.</summary>
    public double Overlap { get; }

    /// <summary>The nearest number of steps to a time.</summary>
    public int Steps(double seconds) => (int)Math.Round(seconds * _sampleRate / Step);

    /// <summary>The power of each bin.</summary>
    public void Powers(ReadOnlySpan<double> re, ReadOnlySpan<double> im, Span<double> powers)
    {
        for (var bin = 0; bin < powers.Length; bin++)
        {
            powers[bin] = ((re[bin] * re[bin]) + (im[bin] * im[bin])) * ToPower;
        }
    }
}
