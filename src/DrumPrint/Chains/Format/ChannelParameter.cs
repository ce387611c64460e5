using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>A channel of a file, by its number from 1 or by its name.</summary>
internal sealed class ChannelParameter(string key, string help) : Parameter(key, help)
{
    /// <summary>Most channels that a WAV header can say.</summary>
    public const int Most = 65535;
}
