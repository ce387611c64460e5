using DrumPrint.Listening;
using DrumPrint.Session;

namespace DrumPrint.Beginning;

/// <summary>A sound file in the folder.</summary>
/// <param name="Path">Where it is, from the session's folder, with forward slashes.</param>
/// <param name="Name">What its name says.</param>
/// <param name="Input">The recording.</param>
/// <param name="StartFrame">Where in the take it begins, by its time stamp.</param>
internal sealed record RawFile(string Path, MicrophoneName Name, TrackInput Input, long StartFrame)
{
    /// <summary>What the chain calls it.</summary>
    public string Track { get; init; } = "";
}
