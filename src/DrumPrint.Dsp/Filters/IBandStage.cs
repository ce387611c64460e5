namespace DrumPrint.Dsp.Filters;

/// <summary>Bands of an equaliser at work, in place.</summary>
internal interface IBandStage
{
    /// <summary>Frames by which the output lags.</summary>
    int LatencyFrames { get; }

    /// <summary>Frames the output goes on after the input, beyond the latency.</summary>
    long TailFrames { get; }

    /// <summary>For how many milliseconds before a hit it rings, down to 60 dB under the ring's loudest moment; 0 with minimum phase.</summary>
    double PreRingMs => 0;

    /// <summary>Filters a stretch of any length.</summary>
    void Process(AudioBlock block);
}
