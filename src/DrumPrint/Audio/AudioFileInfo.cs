namespace DrumPrint.Audio;

/// <summary>What a file's header says.</summary>
/// <param name="Path">The file as it was opened.</param>
/// <param name="SampleRate">Hertz.</param>
/// <param name="Channels">Number of channels.</param>
/// <param name="Frames">Length in frames.</param>
/// <param name="Encoding">How samples are stored.</param>
/// <param name="Broadcast">The <c>bext</c> chunk, where there is one.</param>
public sealed record AudioFileInfo(string Path, int SampleRate, int Channels, long Frames, SampleEncoding Encoding, BroadcastExtension? Broadcast)
{
    /// <summary>Bits of each sample that the file says are in use, from the top; the rest of the stored sample is
    /// zero.</summary>
    public int ValidBits { get; init; } = Encoding.Bits();

    /// <summary>Whether these bits stand at the bottom of the stored sample instead; they are read, and hashed, as if they stood at the top.</summary>
    public bool IsLowJustified { get; init; }

    /// <summary>What is unusual about the file and was made good while reading, as a sentence; null for most.</summary>
    public string? Remark => IsLowJustified
        ? FormattableString.Invariant($"Its {ValidBits} bits stand at the bottom of {Encoding.Bits()}, where the format has them at the top; it was read as the {ValidBits} bits they are.")
        : null;

    /// <summary>Which loudspeaker each channel is for, as WAVE_FORMAT_EXTENSIBLE numbers them; 0 when the file does not
    /// say.</summary>
    public uint ChannelMask { get; init; }
}
