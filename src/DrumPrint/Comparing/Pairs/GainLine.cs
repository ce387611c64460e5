namespace DrumPrint.Comparing.Pairs;

/// <summary>How far a processor turned the signal down, over song time.</summary>
/// <param name="Bus">Its bus; <c>drum bus</c> for the drum bus.</param>
/// <param name="Processor">Its key.</param>
/// <param name="Ordinal">1 for the first of its kind in the bus.</param>
/// <param name="StepFrames">Frames between two values.</param>
/// <param name="LatencyFrames">Frames by which the values lag song time.</param>
/// <param name="LowestGain">Lowest linear gain of each step from the start of the song.</param>
internal sealed record GainLine(string Bus, string Processor, int Ordinal, int StepFrames, long LatencyFrames, float[] LowestGain)
{
    public (string Bus, string Processor, int Ordinal) Key => (Bus, Processor, Ordinal);
}
