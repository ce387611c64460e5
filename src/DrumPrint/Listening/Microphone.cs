using DrumPrint.Session;

namespace DrumPrint.Listening;

/// <summary>One channel of one recording of a take.</summary>
/// <param name="Name">What it is called; of a stereo file with its side behind.</param>
/// <param name="Input">The recording.</param>
/// <param name="Channel">Which of its channels, from 0, among those that are used.</param>
/// <param name="StartFrame">Where in the take the recording begins, at the session's rate; 0 or more.</param>
internal sealed record Microphone(string Name, TrackInput Input, int Channel, long StartFrame = 0)
{
    /// <summary>Which channel of its file, from 0.</summary>
    public int FileChannel => Input.Channel ?? Channel;

    /// <summary>Frames from the start of the take to the end of the recording.</summary>
    public long EndFrame => StartFrame + Input.Frames;

    /// <summary>One microphone for each channel of a recording.</summary>
    public static IEnumerable<Microphone> Of(string name, TrackInput input, long startFrame = 0) => input.Channels == 1
        ? [new Microphone(name, input, 0, startFrame)]
        : Enumerable.Range(0, input.Channels).Select(c => new Microphone($"{name} ({(c == 0 ? "left" : "right")})", input, c, startFrame));
}
