namespace DrumPrint.Audio;

/// <summary>Where things are in an audio file.</summary>
/// <param name="Info">What the header says.</param>
/// <param name="Samples">Where the samples are: whole frames only.</param>
/// <param name="ByteOrder">How the bytes of a sample are ordered.</param>
/// <param name="Extras">Chunks that are neither format, samples, <c>bext</c> nor filler.</param>
internal sealed record AudioFileLayout(AudioFileInfo Info, ChunkPlace Samples, ByteOrder ByteOrder, IReadOnlyList<ChunkPlace> Extras);
