namespace DrumPrint.Dsp.Oversampling;

/// <summary>What happens to a signal while its rate is raised.</summary>
internal interface IOversampledStage
{
    /// <summary>Works in place at twice the frame rate, on the way up.</summary>
    void Before(PhaseBuffer doubled, int frames)
    {
    }

    /// <summary>Bends the signal at the full rate. May read <see cref="Oversampler.CoreHistory"/> frames back.</summary>
    void Bend(PhaseBuffer input, PhaseBuffer output, int frames);

    /// <summary>Works in place at twice the frame rate, on the way down.</summary>
    void After(PhaseBuffer doubled, int frames)
    {
    }
}
