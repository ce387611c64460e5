using System.Diagnostics;
using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Tests.Support;
using static DrumPrint.Tests.Audio.FileBytes;

namespace DrumPrint.Tests.Audio;

/// <summary>FLAC by RFC 9639: every form of it, written by a plain writer of our own that Debian's <c>flac</c> takes too, and what <c>flac</c> and
/// <c>ffmpeg</c> write themselves.</summary>
public sealed class FlacReadingTests
{
    private const int Frames = 1000;

    /// <summary>A name, how it is coded, the channels.</summary>
    public static TheoryData<string> Forms => [.. AllForms().Select(f => f.Name)];

    [Theory]
    [MemberData(nameof(Forms))]
    public void Every_form_of_the_format_gives_the_samples_that_were_coded(string form)
    {
        var (_, stream, channels) = AllForms().First(f => f.Name == form);
        using var folder = new TestFolder();

        var path = folder.Put("take.flac", stream.Write(channels));

        using var reader = AudioReader.Open(path);
        Assert.Equal((channels.Length, channels[0].Length, stream.Bits, stream.RateHz), (reader.Info.Channels, (int)reader.Info.Frames, reader.Info.ValidBits, reader.Info.SampleRate));
        Planar.AssertSame([.. channels.Select(c => c.Select(s => Math.ScaleB(s, 1 - stream.Bits)).ToArray())], Planar.Read(reader, 77));
    }

    // Holds the writer above against a program that knows nothing of it. Streams that do not say their length it takes from a pipe only.
    [FactWithTool("flac")]
    public void Every_form_that_is_tried_here_is_taken_by_the_reference_program()
    {
        using var folder = new TestFolder();
        Assert.All(AllForms(), f =>
        {
            var path = folder.Put("take.flac", f.Stream.Write(f.Channels));
            Assert.Equal(0, Run("flac", "-t", "-s", "--lax", path));
        });
    }

    public static TheoryData<int, int, string> Written()
    {
        var data = new TheoryData<int, int, string>();
        string[] options = ["-0", "-5", "-8 -e -p", "-8 -b 192", "-5 -b 4608 -m", "-0 -b 16 --lax", "-8 -l 32 --lax -r 0,15", "-5 --no-md5-sum"];
        for (var n = 0; n < options.Length; n++)
        {
            data.Add((n % 8) + 1, (n % 3) switch { 0 => 16, 1 => 24, _ => 8 }, options[n]);
        }

        data.Add(2, 16, "-8 -M");
        data.Add(2, 24, "-8 -m");
        data.Add(1, 32, "-8");
        data.Add(2, 32, "-5 -m");
        return data;
    }

    [TheoryWithTool("flac")]
    [MemberData(nameof(Written))]
    public void What_the_reference_program_writes_is_the_wave_file_it_read(int channels, int bits, string options)
    {
        using var folder = new TestFolder();
        var wave = Wave(folder, channels, bits);
        var flac = folder.File("take.flac");

        Assert.Equal(0, Run("flac", [.. options.Split(' '), "--channel-map=none", "-s", "-f", "-o", flac, wave]));

        Planar.AssertSame(Planar.Read(wave), Planar.Read(flac));
        Assert.Equal(FileHash.AudioSha256(wave), FileHash.AudioSha256(flac));
    }

    [TheoryWithTool("ffmpeg")]
    [InlineData(1, 16)]
    [InlineData(2, 24)]
    [InlineData(6, 16)]
    public void What_another_encoder_writes_is_the_wave_file_it_read(int channels, int bits)
    {
        using var folder = new TestFolder();
        var wave = Wave(folder, channels, bits);
        var flac = folder.File("take.flac");

        Assert.Equal(0, Run("ffmpeg", "-v", "error", "-y", "-i", wave, "-c:a", "flac", "-compression_level", "12", flac));

        Planar.AssertSame(Planar.Read(wave), Planar.Read(flac));
    }

    [Fact]
    public void The_same_samples_have_one_hash_in_wave_and_flac()
    {
        using var folder = new TestFolder();
        Assert.All([SampleEncoding.Pcm8, SampleEncoding.Pcm16, SampleEncoding.Pcm24, SampleEncoding.Pcm32], encoding =>
        {
            var signal = Planar.Noise(encoding, 2, Frames);
            Planar.Write(folder.File("take.wav"), signal, encoding);
            var coded = signal.Select(c => c.Select(s => (long)Math.ScaleB(s, encoding.Bits() - 1)).ToArray()).ToArray();
            folder.Put("take.flac", new FlacStream { Bits = encoding.Bits() }.Write(coded));

            Assert.Equal(FileHash.Of(folder.File("take.wav"), AudioHashes.Samples | AudioHashes.Likeness) with { FileSha256 = null }, FileHash.Of(folder.File("take.flac"), AudioHashes.Samples | AudioHashes.Likeness));
        });
    }

    [Fact]
    public void The_hash_of_the_file_is_that_of_its_bytes()
    {
        using var folder = new TestFolder();
        var path = folder.Put("take.flac", Plain().Write(Noise(16, 2, Frames)));

        Assert.Equal(FileHash.Sha256(path), FileHash.Of(path, AudioHashes.File).FileSha256);
    }

    [Fact]
    public void A_stretch_is_the_same_from_any_frame_on_and_back()
    {
        using var folder = new TestFolder();
        var channels = Noise(16, 2, 30000);
        var path = folder.Put("take.flac", new FlacStream { Bits = 16, RateHz = 8000, Blocks = [16, 300, 4096, 77], IsVariable = true }.Write(channels));
        using var windows = SampleWindows.Open(path);
        var random = new Random(3);
        var got = new double[500];

        for (var n = 0; n < 300; n++)
        {
            var (first, channel) = (random.Next(-400, 30100), n % 2);
            windows.Read(channel, first, got);
            Assert.Equal(Enumerable.Range(first, got.Length).Select(i => i >= 0 && i < 30000 ? channels[channel][i] / 32768.0 : 0), got);
        }
    }

    [Fact]
    public void Chunks_of_the_wave_file_it_was_made_of_are_read()
    {
        using var folder = new TestFolder();
        var broadcast = BroadcastChunk.ToBytes(new BroadcastExtension { TimeReference = 172_800_000, Description = "Reel 2" });
        var names = Ascii("<BWFXML><TRACK_LIST><TRACK><INTERLEAVE_INDEX>2</INTERLEAVE_INDEX><NAME>Snare Top</NAME></TRACK></TRACK_LIST></BWFXML>");
        var stream = new FlacStream { Bits = 16, Chunks = [Join(Ascii("RIFF"), Little(0, 4), Ascii("WAVE")), Chunk("bext", broadcast), Chunk("iXML", names)] };

        using var reader = AudioReader.Open(folder.Put("take.flac", stream.Write(Noise(16, 2, 100))));

        Assert.Equal((172_800_000, "Reel 2"), (reader.Info.Broadcast!.TimeReference, reader.Info.Broadcast.Description));
        Assert.Equal(["", "Snare Top"], ChannelNames.Of(reader));
    }

    [Fact]
    public void A_stream_that_does_not_say_its_length_is_counted()
    {
        using var folder = new TestFolder();
        using var reader = AudioReader.Open(folder.Put("take.flac", new FlacStream { Bits = 16, SaysSamples = 0 }.Write(Noise(16, 1, Frames))));

        Assert.Equal(Frames, reader.Info.Frames);
    }

    public static TheoryData<string, byte[], string[]> Broken()
    {
        var good = Plain().Write(Noise(16, 2, Frames));
        byte[] With(int at, byte value) => [.. good[..at], value, .. good[(at + 1)..]];
        return new()
        {
            { "no description", Join(Ascii("fLaC"), new byte[40]), ["header is broken", "STREAMINFO"] },
            { "description not first", Join(Ascii("fLaC"), [1, 0, 0, 34], new byte[40]), ["header is broken", "STREAMINFO"] },
            { "3 bits", With(21, (byte)(good[21] & 0x0F)) is var low ? [.. low[..20], (byte)(low[20] & 0xFE), 0x20, .. low[22..]] : [], ["samples of 3 bits"] },
            { "header broken off", good[..30], ["breaks off inside its header"] },
            { "a bit of a sample turned over", With(good.Length / 2, (byte)(good[good.Length / 2] ^ 4)), ["is damaged: FLAC frame", "CRC-16"] },
            { "a byte of a frame's header", With(44, (byte)(good[44] ^ 0x10)), ["FLAC frame 1", "0.000 s"] },
            { "the hash of the samples", With(30, (byte)(good[30] ^ 1)), ["MD5", "not those that were coded"] },
            { "cut in the middle", good[..(good.Length / 2)], ["cut short", "FLAC frame"] },
            { "cut between two frames", [.. good[..(42 + FrameBytes(good))]], ["cut short", "FLAC frame 2", "0.001 s on (frame 64)"] },
            { "a frame left out", [.. good[..42], .. good[(42 + FrameBytes(good))..]], ["begins at sample 64, but the one before ends at 0"] },
            { "more promised than bytes can hold", new FlacStream { Bits = 16, SaysSamples = 1L << 34 }.Write(Noise(16, 2, 100)), ["cut short", "promises 17179869184 frames"] },
            { "fewer promised", new FlacStream { Bits = 16, SaysSamples = 64, HasMd5 = false }.Write(Noise(16, 2, 200)), ["promises 64 frames, but the file goes on"] },
            { "fewer promised, in a frame", new FlacStream { Bits = 16, SaysSamples = 50, HasMd5 = false }.Write(Noise(16, 2, 200)), ["goes on to sample 64", "has 50"] },
            { "a rate that no recorder has", new FlacStream { Bits = 16, RateHz = 700 }.Write(Noise(16, 2, 200)), ["700 Hz"] },
        };
    }

    [Theory]
    [MemberData(nameof(Broken))]
    public void A_damaged_file_is_refused_with_file_and_frame(string kind, byte[] bytes, string[] words)
    {
        using var folder = new TestFolder();
        var path = folder.Put(kind.Replace(' ', '-') + ".flac", bytes);

        var e = Assert.Throws<AudioFileException>(() => FileHash.AudioSha256(path));

        Assert.StartsWith(path, e.Message, StringComparison.Ordinal);
        Assert.All(words, w => Assert.Contains(w, e.Message, StringComparison.Ordinal));
    }

    [Fact]
    public void Days_of_silence_in_a_few_bytes_are_refused_before_anything_is_made_of_them()
    {
        using var folder = new TestFolder();
        var silence = new FlacStream { Bits = 16, RateHz = 8000, Blocks = [65535], SaysSamples = (25L * 3600 * 8000) + 1, Coding = (_, _) => new FlacCoding("constant"), HasMd5 = false };
        var bytes = silence.Write([new long[65535]]);
        var path = folder.Put("silence.flac", [.. bytes, .. new byte[200_000]]);

        Assert.Contains("longer than 24 hours", Assert.Throws<AudioFileException>(() => AudioReader.Open(path)).Message, StringComparison.Ordinal);
    }

    // Random changes, the same in every run. Whatever is read to its end without a word holds what was coded.
    [Fact]
    public void No_change_of_a_file_crashes_hangs_or_goes_unnoticed()
    {
        using var folder = new TestFolder();
        var random = new Random(11);
        var forms = AllForms().Where(f => f.Stream.HasMd5 && f.Channels.Length <= 2).Select(f =>
        {
            var bytes = f.Stream.Write(f.Channels);
            return (f.Name, Bytes: bytes, Hash: FileHash.AudioSha256(folder.Put("good.flac", bytes)));
        }).ToList();
        var timer = Stopwatch.StartNew();
        for (var n = 0; n < 1500; n++)
        {
            var (name, good, hash) = forms[n % forms.Count];
            var bytes = good;
            for (var k = random.Next(1, 4); k > 0; k--)
            {
                var at = random.Next(bytes.Length);
                bytes = random.Next(4) switch
                {
                    0 => bytes[..Math.Max(1, at)],
                    1 => [.. bytes[..at], .. bytes[Math.Min(bytes.Length, at + random.Next(1, 9))..], 0],
                    2 => [.. bytes[..at], (byte)random.Next(256), .. bytes[at..]],
                    _ => [.. bytes[..at], (byte)(bytes[at] ^ (1 << random.Next(8))), .. bytes[(at + 1)..]],
                };
            }

            var path = folder.Put("changed.flac", bytes);
            var before = GC.GetAllocatedBytesForCurrentThread();
            string? got = null;
            var fault = Record.Exception(() => got = FileHash.AudioSha256(path));
            Assert.True(fault is null or AudioFileException, $"{name}: {fault}");
            Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 24 << 20);

            // A description that was changed may be that of another file: rate and bits are no part of the hash.
            if (fault is null && bytes.Length > 26 && bytes.AsSpan(0, 26).SequenceEqual(good.AsSpan(0, 26)))
            {
                Assert.True(hash == got, $"{name}: a change went unnoticed");
            }
        }

        Assert.InRange(timer.Elapsed.TotalSeconds, 0, 120);
    }

    private static int FrameBytes(byte[] file)
    {
        // Two frames of the plain stream are equally long: verbatim samples in between.
        var second = file.AsSpan(44).IndexOf([(byte)0xFF, (byte)0xF8, (byte)0x60]);
        return second + 2;
    }

    private static FlacStream Plain() => new() { Bits = 16 };

    private static IEnumerable<(string Name, FlacStream Stream, long[][] Channels)> AllForms()
    {
        foreach (var bits in new[] { 4, 8, 12, 16, 20, 24, 32 })
        {
            yield return ($"{bits} bits, verbatim", new FlacStream { Bits = bits }, Noise(bits, 1, Frames));
            yield return ($"{bits} bits, fixed", new FlacStream { Bits = bits, Blocks = [128], Coding = (f, _) => new FlacCoding("fixed", f % 5) { IsLongParameter = bits > 16, PartitionOrder = f % 3 } }, Smooth(bits, 2, 1024));
            yield return ($"{bits} bits, left and side", new FlacStream { Bits = bits, Sides = 8 }, Smooth(bits, 2, Frames));
            yield return ($"{bits} bits, side and right", new FlacStream { Bits = bits, Sides = 9 }, Noise(bits, 2, Frames));
            yield return ($"{bits} bits, middle and side", new FlacStream { Bits = bits, Sides = 10, Coding = (_, c) => new FlacCoding("fixed", c) { IsLongParameter = true } }, Smooth(bits, 2, Frames));
        }

        for (var channels = 1; channels <= 8; channels++)
        {
            yield return ($"{channels} channels", new FlacStream { Bits = 16 }, Noise(16, channels, Frames));
        }

        foreach (var order in new[] { 1, 2, 7, 12, 31, 32 })
        {
            var coefficients = Enumerable.Range(0, order).Select(i => (int)(((i % 2 == 0 ? 1 : -1) * 9000.0) / (1 + (i * i)))).ToArray();
            yield return ($"linear predictor of {order}", new FlacStream { Bits = 24, Coding = (_, _) => new FlacCoding("lpc", order) { Coefficients = coefficients, Shift = 13, PartitionOrder = 1, IsLongParameter = true } }, Smooth(24, 1, 960));
        }

        yield return ("linear predictor of the highest precision over the largest samples", new FlacStream { Bits = 32, Sides = 10, Coding = (_, _) => new FlacCoding("lpc", 2) { Coefficients = [16383, -16384], Shift = 15, IsLongParameter = true } }, Smooth(32, 2, Frames));
        yield return ("one value throughout", new FlacStream { Bits = 16, Coding = (_, _) => new FlacCoding("constant") }, [[.. Enumerable.Repeat(-1234L, Frames)]]);
        yield return ("wasted bits", new FlacStream { Bits = 16, Coding = (f, _) => new FlacCoding(f % 2 == 0 ? "verbatim" : "fixed", f % 2) { Wasted = 1 + (f % 5) } }, [[.. Smooth(16, 1, Frames)[0].Select(s => s & ~31L)]]);
        yield return ("differences written plainly", new FlacStream { Bits = 16, Blocks = [256], Coding = (f, _) => new FlacCoding("fixed", 2) { IsEscaped = true, IsLongParameter = f % 2 == 1, PartitionOrder = 2 } }, Smooth(16, 1, 1024));
        yield return ("differences of nothing, written plainly", new FlacStream { Bits = 16, Blocks = [256], Coding = (_, _) => new FlacCoding("fixed", 1) { IsEscaped = true } }, [new long[1024]]);
        yield return ("as many parts as samples", new FlacStream { Bits = 16, Blocks = [64], Coding = (_, _) => new FlacCoding("fixed") { PartitionOrder = 6 } }, Smooth(16, 1, 1024));
        yield return ("frames of many lengths", new FlacStream { Bits = 16, IsVariable = true, Blocks = [16, 17, 300, 64, 1, 257] }, Noise(16, 2, Frames));
        yield return ("a short last frame", new FlacStream { Bits = 16, Blocks = [999] }, Noise(16, 1, Frames));
        yield return ("one short frame", new FlacStream { Bits = 16, Blocks = [4096] }, Noise(16, 1, 300));
        yield return ("many frames", new FlacStream { Bits = 8, Blocks = [16] }, Noise(8, 1, 40000));
        yield return ("no hash of its samples", new FlacStream { Bits = 16, HasMd5 = false }, Noise(16, 1, Frames));
        yield return ("another rate", new FlacStream { Bits = 16, RateHz = 352800 }, Noise(16, 1, Frames));
    }

    private static long[][] Noise(int bits, int channels, int frames)
    {
        var half = 1L << (bits - 1);
        var noise = Enumerable.Range(0, channels).Select(c => new CounterNoise((ulong)c)).ToArray();
        var all = noise.Select(x => Enumerable.Range(0, frames).Select(n => Math.Clamp((long)Math.Floor(x.Bipolar(n) * half), -half, half - 1)).ToArray()).ToArray();
        (all[0][0], all[0][1]) = (-half, half - 1);
        return all;
    }

    private static long[][] Smooth(int bits, int channels, int frames)
    {
        var half = (1L << (bits - 1)) - 1;
        return [.. Enumerable.Range(0, channels).Select(c => Enumerable.Range(0, frames).Select(n => (long)Math.Round(half * 0.9 * Math.Sin((n / 15.0) + c))).ToArray())];
    }

    private static string Wave(TestFolder folder, int channels, int bits)
    {
        var path = folder.File("take.wav");
        var encoding = bits switch { 8 => SampleEncoding.Pcm8, 16 => SampleEncoding.Pcm16, 24 => SampleEncoding.Pcm24, _ => SampleEncoding.Pcm32 };
        var signal = Smooth(bits, channels, 20000).Select((c, i) => c.Select((s, n) => Math.ScaleB(n < 10000 ? s : s / 1000, 1 - bits)).ToArray()).ToArray();
        Planar.Noise(encoding, channels, 3000).Select((c, i) => (c, i)).ToList().ForEach(x => x.c.CopyTo(signal[x.i], 15000));
        Planar.Write(path, signal, encoding);
        return path;
    }

    private static int Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
        var said = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, $"{program} {string.Join(' ', arguments)}: {said}");
        return process.ExitCode;
    }
}
