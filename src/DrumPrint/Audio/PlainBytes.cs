using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Audio;

/// <summary>Samples that lie in the file as they are: WAV and AIFF.</summary>
internal sealed class PlainBytes(SafeFileHandle handle, AudioFileLayout layout) : SampleBytes
{
    private readonly int _frameBytes = layout.FrameBytes;

    public override bool AreOfFile => true;

    public override void Fetch(long frame, Span<byte> bytes) =>
        FileView.ReadExactly(handle, bytes, layout.Samples.Offset + (frame * _frameBytes), layout.Info.Path);

    public override void Arrange(Span<byte> bytes)
    {
        var info = layout.Info;
        SampleDecoder.ToLittleEndian(bytes, info.Encoding, layout.ByteOrder);
        if (info.IsLowJustified)
        {
            LowBits.Raise(bytes, info.Encoding.Bytes(), info.Encoding.Bits() - info.ValidBits);
        }
    }
}
