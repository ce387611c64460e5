using DrumPrint.Audio;

namespace DrumPrint.Beginning;

/// <summary>A sound file as it lies in the folder.</summary>
/// <param name="Path">From the folder, with forward slashes.</param>
/// <param name="Info">Its header.</param>
/// <param name="Channels">Names of its channels, where it has more than two.</param>
internal sealed record FoundSound(string Path, AudioFileInfo Info, IReadOnlyList<string> Channels);
