namespace DrumPrint.Dsp.Oversampling;

/// <summary>A stretch of a signal at a multiple of the frame rate, one row for each position within a frame.</summary>
/// <remarks>Sample m of the faster signal is frame ⌊m/phases⌋ of row m mod phases. With rows, a filter at the faster rate
/// reads and writes neighbouring frames only, so vector lanes are frames and no sum ever crosses lanes.</remarks>
internal sealed class PhaseBuffer(int phases, int history)
{
    /// <summary>Longest stretch held at once: a whole number of <see cref="VectorsAtOnce"/> vectors of any width, so that loops
    /// over whole vectors may run past a shorter stretch without leaving its row.</summary>
    public const int MaxFrames = 128;

    /// <summary>Most vectors that such a loop works on before it looks whether the stretch is over.</summary>
    public const int VectorsAtOnce = 8;

    public int Phases { get; } = phases;

    /// <summary>Frames before the stretch that can still be read.</summary>
    public int History { get; } = history;

    /// <summary>Distance between rows in <see cref="Samples"/>.</summary>
    public int Stride { get; } = history + MaxFrames;

    public double[] Samples { get; } = new double[phases * (history + MaxFrames)];

    /// <summary>The stretch's samples in one row.</summary>
    public Span<double> Row(int phase, int frames) => Samples.AsSpan(Start(phase), frames);

    /// <summary>Index in <see cref="Samples"/> of a row's first frame.</summary>
    public int Start(int phase) => (phase * Stride) + History;

    /// <summary>Turns the stretch into history.</summary>
    public void Advance(int frames)
    {
        if (History > 0)
        {
            for (var row = 0; row < Samples.Length; row += Stride)
            {
                Samples.AsSpan(row + frames, History).CopyTo(Samples.AsSpan(row));
            }
        }
    }
}
