using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Oversampling;

/// <summary>A stretch of a signal at a multiple of the frame rate, one row for each position within a frame.</summary>
/// <remarks>Sample m of the faster signal is frame ⌊m/phases⌋ of row m mod phases. Within a row the channels of a frame lie side
/// by side. With rows, a filter at the faster rate reads and writes neighbouring frames only. So vector lanes are frames and
/// channels, and no sum ever crosses lanes.</remarks>
internal sealed class PhaseBuffer(int phases, int history, int channels)
{
    /// <summary>Longest stretch held at once. It is a whole number of rounds of three and of four vectors of any width. So
    /// loops over whole rounds may run past a shorter stretch without leaving its row.</summary>
    public const int MaxFrames = 192;

    public int Phases { get; } = phases;

    public int Channels { get; } = channels;

    /// <summary>Frames before the stretch that can still be read.</summary>
    public int History { get; } = history;

    /// <summary>Distance between rows in <see cref="Samples"/>.</summary>
    public int Stride { get; } = (history + MaxFrames) * channels;

    public double[] Samples { get; } = new double[phases * (history + MaxFrames) * channels];

    /// <summary>The stretch's samples in one row, the channels of each frame side by side.</summary>
    public Span<double> Row(int phase, int frames) => Samples.AsSpan(Start(phase), frames * Channels);

    /// <summary>Index in <see cref="Samples"/> of a row's first frame.</summary>
    public int Start(int phase) => (phase * Stride) + (History * Channels);

    /// <summary>Turns the stretch into history.</summary>
    public void Advance(int frames)
    {
        if (History > 0)
        {
            for (var row = 0; row < Samples.Length; row += Stride)
            {
                Samples.AsSpan(row + (frames * Channels), History * Channels).CopyTo(Samples.AsSpan(row));
            }
        }
    }

    /// <summary>Puts a stretch's channels side by side into one row.</summary>
    public void Put(AudioBlock stretch, int phase)
    {
        var row = Row(phase, stretch.Frames);
        if (Channels == 1)
        {
            stretch[0].CopyTo(row);
        }
        else if (Channels == 2)
        {
            var right = stretch[1];
            var sides = MemoryMarshal.Cast<double, Vector128<double>>(row);
            var left = stretch[0][..sides.Length];
            for (var n = 0; n < left.Length; n++)
            {
                sides[n] = Vector128.Create(left[n], right[n]);
            }
        }
        else
        {
            for (var channel = 0; channel < Channels; channel++)
            {
                var samples = stretch[channel];
                for (int n = 0, i = channel; n < samples.Length; n++, i += Channels)
                {
                    row[i] = samples[n];
                }
            }
        }
    }

    /// <summary>Takes a stretch's channels out of one row.</summary>
    public void Take(AudioBlock stretch, int phase)
    {
        var row = Row(phase, stretch.Frames);
        if (Channels == 1)
        {
            row.CopyTo(stretch[0]);
        }
        else if (Channels == 2)
        {
            var right = stretch[1];
            var sides = MemoryMarshal.Cast<double, Vector128<double>>(row);
            var left = stretch[0][..sides.Length];
            for (var n = 0; n < left.Length; n++)
            {
                left[n] = sides[n].GetElement(0);
                right[n] = sides[n].GetElement(1);
            }
        }
        else
        {
            for (var channel = 0; channel < Channels; channel++)
            {
                var samples = stretch[channel];
                for (int n = 0, i = channel; n < samples.Length; n++, i += Channels)
                {
                    samples[n] = row[i];
                }
            }
        }
    }
}
