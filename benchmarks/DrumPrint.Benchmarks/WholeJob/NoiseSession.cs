using System.Globalization;
using System.Text;
using DrumPrint.Audio;
using DrumPrint.Demo;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Benchmarks.WholeJob;

/// <summary>Sessions of any length and width, their tracks all the same noise that bursts twice a second.</summary>
internal static class NoiseSession
{
    private const int BlockFrames = 48000;

    /// <summary>Writes a session of buses that are each equalised, compressed and saturated, and printed.</summary>
    /// <returns>The chain file.</returns>
    public static string Write(string folder, int buses, double minutes, int rateHz)
    {
        Directory.CreateDirectory(folder);
        Noise(Path.Combine(folder, "noise.wav"), minutes, rateHz);
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $$"""
            { "chain": 1, "song": { "title": "Noise", "code": "Noise", "rate_hz": {{rateHz}} },
              "tracks": { "one": "noise.wav", "two": "noise.wav", "three": "noise.wav", "four": "noise.wav" },
              "buses": {

            """);
        for (var bus = 1; bus <= buses; bus++)
        {
            text.Append(CultureInfo.InvariantCulture, $$"""
                  "bus {{bus}}": { "from": { "one": {{-bus}}, "two": -30, "three": { "level_db": -30, "pan_pct": 40 }, "four": -30 }, "through": [
                    { "eq": { "bands": [ { "high_pass": { "freq_hz": 40 } }, { "bell": { "freq_hz": 420, "gain_db": -3 } } ] } },
                    { "compress": { "threshold_db": -30, "ratio": 4 } }, { "saturate": { } } ] },

                """);
        }

        text.AppendLine("}, \"prints\": [");
        for (var bus = 1; bus <= buses; bus++)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $$"""  { "number": {{bus}}, "name": "Bus{{bus}}", "bus": "bus {{bus}}", "level_db": -40 },""");
        }

        text.AppendLine("], \"output\": { \"rough\": { \"number\": 90 } } }");
        var path = Path.Combine(folder, "Noise.chain.json");
        File.WriteAllText(path, text.ToString());
        return path;
    }

    /// <summary>Writes the demo session's chain over noise: every processor of it, at any length and rate.</summary>
    /// <returns>The chain file.</returns>
    public static string WriteDemo(string folder, double minutes, int rateHz)
    {
        var files = DemoSession.Write(folder, full: false, progress: null, CancellationToken.None);
        var chain = File.ReadAllText(files.Chain).Replace("\"rate_hz\": 48000", string.Create(CultureInfo.InvariantCulture, $"\"rate_hz\": {rateHz}"), StringComparison.Ordinal);
        foreach (var raw in Directory.GetFiles(Path.Combine(folder, "raw"), "*.wav"))
        {
            chain = chain.Replace("raw/" + Path.GetFileName(raw), "noise.wav", StringComparison.Ordinal);
            File.Delete(raw);
        }

        // Four tracks more than the demo has: as wide as sessions get.
        var spare = Enumerable.Range(1, 4).Select(n => $"spare {n}").ToList();
        chain = chain.Replace("\"tracks\": {", "\"tracks\": { " + string.Concat(spare.Select(s => $"\"{s}\": \"noise.wav\", ")), StringComparison.Ordinal);
        chain = chain.Replace("\"cabasa\": {", string.Concat(spare.Select(s => $"\"{s}\": -40, ")) + "\"cabasa\": {", StringComparison.Ordinal);

        Noise(Path.Combine(folder, "noise.wav"), minutes, rateHz);
        File.WriteAllText(files.Chain, chain);
        return files.Chain;
    }

    private static void Noise(string path, double minutes, int rateHz)
    {
        var frames = (long)(minutes * 60 * rateHz);
        using var writer = WaveWriter.Create(path, new AudioFormat(rateHz, 1), SampleEncoding.Pcm24, null, frames);
        var noise = CounterNoise.FromName("noise");
        var block = new double[BlockFrames];
        for (var start = 0L; start < frames; start += BlockFrames)
        {
            var count = (int)Math.Min(BlockFrames, frames - start);
            for (var n = 0; n < count; n++)
            {
                var since = (double)((start + n) % (rateHz / 2)) / rateHz;
                var sample = 0.02 * Math.Exp(-since / 0.05) * ((2.0 * noise.Bits(start + n) / ulong.MaxValue) - 1);
                block[n] = Math.Round(sample * (1 << 23)) / (1 << 23);
            }

            writer.Write(new AudioBlock([block], 0, count));
        }

        writer.Finish(frames);
        writer.Publish();
    }
}
