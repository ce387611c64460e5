namespace DrumPrint.Audio;

/// <summary>A file, and where it begins in the recording it is a part of.</summary>
/// <param name="Path">Full path.</param>
/// <param name="Info">Its header.</param>
/// <param name="StartFrame">Frame of the recording at which it begins, at the file's rate; 0 or more.</param>
internal sealed record PlacedFile(string Path, AudioFileInfo Info, long StartFrame)
{
    public long EndFrame => StartFrame + Info.Frames;
}
