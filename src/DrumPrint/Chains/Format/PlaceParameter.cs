using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>A place in a room: three numbers, in metres.</summary>
internal sealed class PlaceParameter(string key, string help) : Parameter(key, help)
{
    /// <summary>Farthest from the point that all places are measured from, in metres, each way.</summary>
    public const double Farthest = 100;
}
