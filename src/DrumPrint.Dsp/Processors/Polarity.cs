using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Turns the wave upside down.</summary>
public sealed class Polarity : IProcessor
{
    public static readonly ChoiceParameter Invert = new(
        "invert",
        [
            new("both", "Every channel."),
            new("left", "The left channel only."),
            new("right", "The right channel only."),
        ],
        "both",
        "Which channels to turn over.");

    private readonly bool _left;
    private readonly bool _right;

    private Polarity(Settings settings, AudioFormat format)
    {
        var invert = settings[Invert];
        if (invert != "both" && format.Channels < 2)
        {
            throw new SettingsException(Invert, $"polarity '{invert}' needs a stereo signal; this one is mono.");
        }

        _left = invert is "both" or "left";
        _right = invert is "both" or "right";
    }

    public static ProcessorDefinition Definition { get; } = new(
        "polarity", 1, "Turns the wave upside down.", [Invert], static (settings, context) => new Polarity(settings, context.Format))
    {
        AlsoCalled = ["invert"],
    };

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var channel = 0; channel < block.Channels; channel++)
        {
            if (channel == 0 ? _left : _right)
            {
                foreach (ref var sample in block[channel])
                {
                    // Not −x: silence stays plain zero.
                    sample = 0 - sample;
                }
            }
        }
    }
}
