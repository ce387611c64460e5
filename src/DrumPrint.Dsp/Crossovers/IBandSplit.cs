namespace DrumPrint.Dsp.Crossovers;

/// <summary>Parts a signal into bands, the lowest first. Their sum is the signal, late or with its phase turned.</summary>
internal interface IBandSplit
{
    /// <summary>Frames by which the bands lag.</summary>
    int LatencyFrames { get; }

    /// <summary>Frames the bands go on after the input, beyond the latency.</summary>
    long TailFrames { get; }

    /// <summary>For how many milliseconds before a hit the bands ring, down to 60 dB under the ring's loudest moment; 0 with minimum phase.</summary>
    double PreRingMs { get; }

    /// <summary>Parts a stretch of any length.</summary>
    /// <param name="input">The signal; not written to.</param>
    /// <param name="bands">Each band's channels; their first frames are written.</param>
    void Split(AudioBlock input, double[][][] bands);
}
