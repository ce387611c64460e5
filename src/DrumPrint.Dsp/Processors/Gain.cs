using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Raises or lowers the level.</summary>
public sealed class Gain : IProcessor
{
    public static readonly NumberParameter Level = new("level_db", Unit.Decibels, -120, 60, 0, "How much louder or, below zero, softer.");

    private readonly double _gain;

    private Gain(Settings settings) => _gain = Decibels.ToGain(settings[Level]);

    public static ProcessorDefinition Definition { get; } = new(
        "gain", 1, "Raises or lowers the level.", [Level], static (settings, _) => new Gain(settings))
    {
        AlsoCalled = ["volume", "level"],
    };

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var channel = 0; channel < block.Channels; channel++)
        {
            Blend.Copy(block[channel], _gain, block[channel]);
        }
    }
}
