using System.Security.Cryptography;
using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Fuzz.Targets;

/// <summary>WAV, RF64, BW64, AIFF, AIFF-C and FLAC: header, samples, chunks, hashes and the seal of a print.</summary>
internal sealed class SoundTarget : FuzzTarget
{
    private const int BlockFrames = 512;
    private const int BlockChannels = 3;

    private readonly ScratchFolder _folder = new();
    private readonly ScratchFile _file;
    private readonly double[][] _channels = [.. Enumerable.Range(0, BlockChannels).Select(_ => new double[BlockFrames])];
    private readonly double[] _window = new double[16];

    public SoundTarget() => _file = new ScratchFile(_folder.File("fuzz.wav"));

    public override string Name => "sound";

    public override bool IsText => false;

    // One frame of FLAC decoded, twice over: 65535 samples of 8 channels in 64 bits, and as bytes.
    public override long BaseBytes => 24 << 20;

    public override long BytesPerByte => 256;

    protected override bool IsRefusal(Exception e) => e is AudioFileException;

    protected override bool Read(byte[] input)
    {
        _file.Put(input);
        FileSeal.Read(_file.Path);
        string hash;
        long frames;
        var first = new double[_window.Length];
        using (var reader = AudioReader.Open(_file.Path, AudioHashes.Samples | AudioHashes.File | AudioHashes.Likeness))
        {
            var info = reader.Info;
            Require(info.Frames >= 0 && info.Channels > 0 && info.SampleRate > 0, "a sound has frames, channels and a rate");
            Require(input.AsSpan().StartsWith("fLaC"u8) || info.Frames * info.Channels <= input.Length, "no plain sound has more samples than its file has bytes");
            frames = ReadAll(reader, first);
            Require(frames == info.Frames, "as many frames are read as the header is said to promise");
            Require(reader.FileSha256 == Convert.ToHexStringLower(SHA256.HashData(input)), "the hash of the file is that of its bytes");
            hash = reader.AudioSha256;
            Require(reader.Chunks.Sum(c => (long)c.Data.Length) <= input.Length, "chunks hold no more than the file");
        }

        using (var reader = AudioReader.Open(_file.Path))
        {
            reader.Skip(frames / 2);
            reader.Skip(long.MaxValue);
            Require(reader.AudioSha256 == hash, "frames that are passed over count for the hash");
        }

        using var windows = SampleWindows.Open(_file.Path);
        windows.Read(0, 0, _window);
        Require(_window.AsSpan().SequenceEqual(first) || _window.Any(double.IsNaN), "a window holds the samples of the file");
        windows.Read(-1, frames - 3, _window);
        return true;
    }

    protected override void Dispose(bool disposing)
    {
        _file.Dispose();
        _folder.Dispose();
        base.Dispose(disposing);
    }

    private long ReadAll(AudioReader reader, double[] first)
    {
        var block = new AudioBlock(_channels, 0, BlockFrames);
        var all = 0L;
        for (int frames; (frames = reader.Read(block)) > 0; all += frames)
        {
            if (all == 0)
            {
                block[0][..first.Length].CopyTo(first);
            }
        }

        return all;
    }
}
