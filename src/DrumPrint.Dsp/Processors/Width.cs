using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Makes the stereo picture narrower or wider by the level of the difference between left and right.</summary>
/// <remarks>Mid (L + R)/2 stays, side (L − R)/2 is scaled: 0 % is mono, 100 % changes nothing, 200 % doubles the side.</remarks>
public sealed class Width : IProcessor
{
    public static readonly NumberParameter Amount = new("width_pct", Unit.Percent, 0, 200, 100, "How wide: 0 is mono, 100 leaves it alone, 200 is twice as wide.");

    private readonly double _width;

    private Width(Settings settings, AudioFormat format)
    {
        if (format.Channels < 2)
        {
            throw new SettingsException(Amount, "width needs a stereo signal; this one is mono.");
        }

        _width = settings[Amount] / 100;
    }

    public static ProcessorDefinition Definition { get; } = new(
        "width", 1, "Makes the stereo picture narrower or wider.", [Amount], static (settings, context) => new Width(settings, context.Format));

    public void Process(AudioBlock block, AudioBlock key)
    {
        // Adding mid and side rounds, and 100 % must not touch a bit.
        if (_width == 1)
        {
            return;
        }

        var left = block[0];
        var right = block[1];
        for (var frame = 0; frame < left.Length; frame++)
        {
            var mid = 0.5 * (left[frame] + right[frame]);
            var side = 0.5 * _width * (left[frame] - right[frame]);
            left[frame] = mid + side;
            right[frame] = mid - side;
        }
    }
}
