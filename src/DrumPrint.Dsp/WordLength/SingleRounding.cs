namespace DrumPrint.Dsp.WordLength;

/// <summary>Rounds samples to 32-bit float, to the nearest with ties to even, as IEEE 754 has it.</summary>
public static class SingleRounding
{
    public static void Process(AudioBlock block)
    {
        for (var channel = 0; channel < block.Channels; channel++)
        {
            foreach (ref var sample in block[channel])
            {
                sample = (float)sample;
            }
        }
    }
}
