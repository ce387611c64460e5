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
    /// <summary>Which channel of a file of many, from 1; null for a file of one or two.</summary>
    public int? Channel { get; init; }

    /// <summary>What the file calls that channel; empty where it gives no name.</summary>
    public string ChannelName { get; init; } = "";

    /// <summary>All files of a take that was punched in, from the session's folder; none for one file.</summary>
    public IReadOnlyList<string> Punched { get; init; } = [];

    /// <summary>The file as people are told of it.</summary>
    public string Label => Punched.Count > 0 ? FormattableString.Invariant($"{Path} and {Punched.Count - 1} more") : Channel is { } number ? FormattableString.Invariant($"{Path} channel {number}{(ChannelName.Length > 0 ? $" ({ChannelName})" : "")}") : Path;

    /// <summary>Its microphones: one, or left and right.</summary>
    public IEnumerable<Microphone> Microphones => Channel is { } number ? [new Microphone(Label, Input, number - 1, StartFrame)] : Microphone.Of(Path, Input, StartFrame);

    /// <summary>What the chain calls it.</summary>
    public string Track { get; init; } = "";
}
