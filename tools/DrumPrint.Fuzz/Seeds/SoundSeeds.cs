using DrumPrint.Tests.Audio;
using static DrumPrint.Tests.Audio.FileBytes;

namespace DrumPrint.Fuzz.Seeds;

/// <summary>Tiny sound files of every form, after the texts of their formats.</summary>
internal static class SoundSeeds
{
    private static readonly byte[] Samples = [.. Enumerable.Range(0, 96).Select(n => (byte)(n * 37))];

    public static IEnumerable<Seed> All() => Waves().Concat(Aiffs()).Concat(Flacs()).Concat(Midis()).Concat(Broken()).Concat(Broadcasts());

    private static IEnumerable<Seed> Waves()
    {
        foreach (var (tag, bits) in new[] { (1, 8), (1, 16), (1, 24), (1, 32), (3, 32), (3, 64) })
        {
            yield return Sound($"good-{(tag == 1 ? "integer" : "float")}-{bits}.wav", Riff(Format(tag, 2, bits), Chunk("data", Samples)));
        }

        yield return Sound("good-20-bits-in-24.wav", Riff(ExtensibleFormat(1, 2, 24, 20), Chunk("data", Samples)));
        yield return Sound("good-24-bits-low-in-32.wav", Riff(ExtensibleFormat(1, 1, 32, 24), Chunk("data", Enumerable.Range(-8, 16).SelectMany(n => BitConverter.GetBytes(n * 1001)).ToArray())));
        yield return Sound("good-empty.wav", Riff(Format(1, 1, 16), Chunk("data")));
        yield return Sound("good-half-a-frame.wav", Riff(Format(1, 2, 24), Chunk("data", Samples[..20])));
        yield return Sound("good-no-padding.wav", Riff(Format(1, 1, 8), Join(Ascii("data"), Little(3, 4), [1, 2, 3]), Chunk("LIST", Ascii("INFO"))));
        yield return Sound("good-chunks.wav", Riff(Chunk("JUNK", new byte[28]), Chunk("bext", Broadcast()), Format(1, 2, 24), Chunk("fact", new byte[4]), Chunk("data", Samples), Chunk("LIST", Ascii("INFO")), Chunk("cue ", new byte[28])));
        yield return Sound("good-rf64.wav", Outer("RF64", 0xFFFF_FFFF, LongSizes(300, 96, 16), ExtensibleFormat(1, 2, 24, 24), ChunkSaying("data", 0xFFFF_FFFF, Samples)));
        yield return Sound("good-bw64-table.wav", Outer("BW64", 0xFFFF_FFFF, LongSizes(300, 96, 16, [.. Ascii("long"), .. Little(8, 8)]), Format(1, 2, 24), ChunkSaying("long", 0xFFFF_FFFF, new byte[8]), ChunkSaying("data", 0xFFFF_FFFF, Samples)));
        yield return Sound("good-12-channels.wav", Riff(ExtensibleFormat(3, 12, 32, 32), Chunk("data", Samples)));
    }

    private static IEnumerable<Seed> Aiffs()
    {
        foreach (var bits in new[] { 8, 12, 16, 24, 32 })
        {
            yield return Sound($"good-{bits}.aiff", Form("AIFF", Common(1, (uint)(96 / ((bits + 7) / 8)), bits), Tests.Audio.FileBytes.Sound(Samples)));
        }

        foreach (var (kind, bits) in new[] { ("NONE", 24), ("sowt", 16), ("twos", 16), ("raw ", 8), ("in24", 24), ("in32", 32), ("fl32", 32), ("fl64", 64) })
        {
            yield return Sound($"good-{kind.Trim()}.aifc", Form("AIFC", BigChunk("FVER", Big(0xA280_5140, 4)), Common(1, (uint)(96 / (bits / 8)), bits, kind), Tests.Audio.FileBytes.Sound(Samples), BigChunk("NAME", Ascii("odd"))));
        }

        yield return Sound("good-offset.aiff", Form("AIFF", Common(1, 20, 24), BigChunk("SSND", Big(36, 4), Big(0, 4), Samples)));
        yield return Sound("good-no-samples.aiff", Form("AIFF", Common(1, 0, 24)));
    }

    private static IEnumerable<Seed> Flacs()
    {
        long[] wave = [.. Enumerable.Range(0, 96).Select(n => (long)Math.Round(90 * Math.Sin(n / 5.0)))];
        long[] other = [.. wave.Select((s, n) => (s / 2) + (n % 3))];
        foreach (var bits in new[] { 8, 12, 16, 24, 32 })
        {
            yield return Sound($"good-{bits}.flac", new FlacStream { Bits = bits, Blocks = [32], Coding = (f, _) => new FlacCoding("fixed", f + 1) { PartitionOrder = f } }.Write([wave]));
        }

        yield return Sound("good-middle-side.flac", new FlacStream { Bits = 16, Sides = 10, Blocks = [16, 48, 20], IsVariable = true }.Write([wave, other]));
        yield return Sound("good-linear.flac", new FlacStream { Bits = 24, Coding = (_, _) => new FlacCoding("lpc", 2) { Coefficients = [16000, -8000], Shift = 13 } }.Write([wave, other, wave]));
        yield return Sound("good-plain-differences.flac", new FlacStream { Bits = 16, Coding = (_, _) => new FlacCoding("fixed", 1) { IsEscaped = true, Wasted = 1 } }.Write([[.. wave.Select(s => 2 * s)]]));
        yield return Sound("good-length-not-said.flac", new FlacStream { Bits = 16, SaysSamples = 0, HasMd5 = false, Chunks = [Chunk("bext", Broadcast())] }.Write([wave]));
        yield return Sound("bad-cut.flac", new FlacStream { Bits = 16 }.Write([wave])[..^20]);
        yield return Sound("bad-other-hash.flac", new FlacStream { Bits = 16 }.Write([wave]) is var bytes ? [.. bytes[..30], (byte)(bytes[30] ^ 1), .. bytes[31..]] : []);
    }

    private static IEnumerable<Seed> Midis()
    {
        byte[] metre = [0, 0xFF, 0x58, 4, 3, 3, 24, 8];
        byte[] tempo = [0x8F, 0x00, 0xFF, 0x51, 3, 0x07, 0xA1, 0x20];
        byte[] marker = [0x81, 0x40, 0xFF, 0x06, 5, .. Ascii("verse")];
        byte[] notes = [0, 0x90, 60, 100, 0x60, 60, 0, 0, 0xF0, 2, 1, 0xF7, 0, 0xC0, 5];
        byte[] end = [0x60, 0xFF, 0x2F, 0];
        yield return Midi("good-one-track.mid", 0, [.. metre, .. tempo, .. marker, .. notes, .. end]);
        yield return Midi("good-two-tracks.mid", 1, [.. metre, .. tempo, .. end], [.. notes, .. end]);
        yield return Midi("good-nothing.mid", 0, end);
        yield return Midi("bad-several-songs.mid", 2, end);
        yield return Midi("bad-length.mid", 0, [0, 0xFF, 0x06, 0xFF, 0xFF, 0xFF, 0x7F]);
    }

    private static Seed Midi(string name, int format, params byte[][] tracks) => new("midi", name, Join(
        Ascii("MThd"), Big(6, 4), Big((ulong)format, 2), Big((ulong)tracks.Length, 2), Big(96, 2), Join([.. tracks.Select(t => Join(Ascii("MTrk"), Big((ulong)t.Length, 4), t))])));

    private static IEnumerable<Seed> Broken()
    {
        yield return Sound("bad-truncated.wav", Riff(Format(1, 2, 24), ChunkSaying("data", 600, Samples)));
        yield return Sound("bad-unfinished.wav", Riff(Format(1, 2, 24), ChunkSaying("data", 0, Samples)));
        yield return Sound("bad-private.wav", Riff(Chunk("fmt ", Format(0xFFFE, 2, 24)[8..], Little(22, 2), Little(24, 2), Little(3, 4), new byte[16]), Chunk("data", Samples)));
        yield return Sound("bad-compressed.aifc", Form("AIFC", Common(2, 10, 16, "ima4"), Tests.Audio.FileBytes.Sound(Samples)));
        yield return Sound("bad-unfinished.aiff", Form("AIFF", Common(2, 0, 24), Tests.Audio.FileBytes.Sound(Samples)));
    }

    private static IEnumerable<Seed> Broadcasts()
    {
        yield return new Seed("bext", "good-version-2", Broadcast());
        yield return new Seed("bext", "good-version-0", [.. new byte[346], 0, 0, .. new byte[254], .. Ascii("A=PCM,F=48000,W=24,M=mono,T=x\r\n")]);
        yield return new Seed("bext", "bad-short", new byte[601]);
    }

    private static byte[] Broadcast()
    {
        var bytes = new byte[602 + 32];
        Ascii("A print of an invented song").CopyTo(bytes, 0);
        Ascii("DrumPrint").CopyTo(bytes, 256);
        Ascii("2026-01-02").CopyTo(bytes, 320);
        Ascii("03:04:05").CopyTo(bytes, 330);
        Little(4800, 8).CopyTo(bytes, 338);
        Little(2, 2).CopyTo(bytes, 346);
        Join(Little(0xF6D7, 2), Little(520, 2), Little(0xFFB0, 2), Little(0x7FFF, 2), Little(0xF768, 2)).CopyTo(bytes, 412);
        Ascii("A=PCM,F=48000,W=24,M=mono,T=x\r\n").CopyTo(bytes, 602);
        return bytes;
    }

    private static Seed Sound(string name, byte[] bytes) => new("sound", name, bytes);
}
