namespace DrumPrint.Dsp.Alignment;

/// <summary>Reads a stretch of one recording into a span, all of it; what lies outside the recording is silence.</summary>
/// <param name="firstFrame">Frame to begin with; may lie before the recording or after it.</param>
/// <param name="frames">Where they go.</param>
public delegate void FrameReader(long firstFrame, Span<double> frames);
