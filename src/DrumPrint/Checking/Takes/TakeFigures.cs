using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Checking.Takes;

/// <summary>What one pass over a file tells.</summary>
internal sealed record TakeFigures
{
    public required int RateHz { get; init; }

    public required long Frames { get; init; }

    public required IReadOnlyList<ChannelFigures> Channels { get; init; }

    /// <summary>Mean power of each millisecond, over all channels.</summary>
    public required float[] MsPower { get; init; }

    public required HitTimes Hits { get; init; }

    /// <summary>Highest level of the wave between the samples.</summary>
    public required double TruePeakDb { get; init; }

    /// <summary>Quick hash of the samples.</summary>
    public required UInt128 Likeness { get; init; }

    /// <summary>SHA-256 of the samples; null where it was not asked for.</summary>
    public string? Sha256 { get; init; }

    /// <summary>Part of the samples of a 24-bit file, zeros left out, whose lowest 8 bits are all zero.</summary>
    public double PaddedShare { get; init; }

    /// <summary>Energies of left, right and both multiplied, for stereo.</summary>
    public (double Left, double Right, double Both) Sides { get; init; }

    /// <summary>Largest difference between left and right.</summary>
    public double SidePeak { get; init; }

    public double Peak => Channels.Max(c => c.Peak);

    public double PeakDb => Db(Peak);

    public double Rms => Frames == 0 ? 0 : Math.Sqrt(Channels.Sum(c => c.Energy) / Frames / Channels.Count);

    public double RmsDb => Db(Rms);

    /// <summary>Mean power of a stretch, in seconds.</summary>
    public double Power(double fromS, double toS)
    {
        var (from, to) = ((int)Math.Clamp(Math.Round(fromS * 1000), 0, MsPower.Length), (int)Math.Clamp(Math.Round(toS * 1000), 0, MsPower.Length));
        var sum = 0.0;
        for (var i = from; i < to; i++)
        {
            sum += MsPower[i];
        }

        return to > from ? sum / (to - from) : 0;
    }

    /// <summary>Mean powers of stretches of so many milliseconds, laid end to end.</summary>
    public IEnumerable<double> Powers(int ms)
    {
        for (var from = 0; from + ms <= MsPower.Length; from += ms)
        {
            yield return Power(from / 1000.0, (from + ms) / 1000.0);
        }
    }

    public static double Db(double gain) => gain > 0 ? Decibels.FromGain(gain) : double.NegativeInfinity;

    public static double PowerDb(double power) => power > 0 ? Db(Math.Sqrt(power)) : double.NegativeInfinity;
}

/// <summary>A stretch of frames.</summary>
internal readonly record struct Stretch(long Frame, long Frames);

/// <summary>What one pass tells of a channel.</summary>
internal sealed record ChannelFigures
{
    public required double Peak { get; init; }

    public required long PeakFrame { get; init; }

    public required double Energy { get; init; }

    public required double Mean { get; init; }

    public required double First { get; init; }

    public required double Last { get; init; }

    /// <summary>Three or more samples in a row at 0.99 of full scale or above; as many as are worth telling.</summary>
    public required IReadOnlyList<Stretch> Clips { get; init; }

    public required int ClipCount { get; init; }

    /// <summary>Four or more equal samples in a row at the channel's own highest or lowest value.</summary>
    public required IReadOnlyList<Stretch> Tops { get; init; }

    /// <summary>Exact zeros for 10 ms and longer.</summary>
    public required IReadOnlyList<Stretch> Zeros { get; init; }

    /// <summary>Single steps that stand far above those around them.</summary>
    public required IReadOnlyList<long> Steps { get; init; }
}
