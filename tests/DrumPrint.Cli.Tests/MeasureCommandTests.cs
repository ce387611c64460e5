using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Cli.Tests;

public sealed class MeasureCommandTests : IDisposable
{
    private static readonly string[] Keys =
    [
        "file", "rate_hz", "channels", "bits", "float", "remark", "frames", "length_s", "integrated_lufs", "short_term_max_lufs", "momentary_max_lufs",
        "range_lu", "true_peak_dbtp", "sample_peak_dbfs", "rms_dbfs", "crest_db", "dc", "correlation", "decay_s", "active_share",
    ];

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    // EBU Tech 3341, 2.9: a 1 kHz stereo sine at −18 dBFS reads −18 LUFS. The rest is textbook: 3.01 dB of crest.
    [Fact]
    public void A_steady_tone_gives_every_figure_under_its_documented_key()
    {
        Write("tone.wav", Tone(4 * 48000, -18), Tone(4 * 48000, -18));

        var run = Run("measure", "tone.wav", "--json");

        Assert.Equal(0, run.ExitCode);
        using var json = JsonDocument.Parse(run.Output);
        var file = json.RootElement.GetProperty("files")[0];
        Assert.Equal(Keys, file.EnumerateObject().Select(p => p.Name));
        Assert.InRange(file.GetProperty("integrated_lufs").GetDouble(), -18.1, -17.9);
        Assert.Equal(-18, file.GetProperty("true_peak_dbtp").GetDouble(), 0.02);
        Assert.Equal(3.01, file.GetProperty("crest_db").GetDouble());
        Assert.Equal(1, file.GetProperty("correlation").GetDouble());
        Assert.Equal(1, file.GetProperty("active_share").GetDouble());
        Assert.Equal(0, file.GetProperty("range_lu").GetDouble());
        Assert.Equal(JsonValueKind.Null, file.GetProperty("decay_s").ValueKind);
    }

    [Fact]
    public void Every_key_stands_in_the_description_of_the_format()
    {
        var text = File.ReadAllText(Repository.File("docs", "measure-format.md"));

        Assert.All(Keys, key => Assert.Contains($"`{key}`", text, StringComparison.Ordinal));
    }

    [Fact]
    public void Silence_has_a_length_and_an_offset_and_no_level()
    {
        Write("silence.wav", new double[48000 * 4]);

        var run = Run("measure", "silence.wav", "--json");

        using var json = JsonDocument.Parse(run.Output);
        var told = json.RootElement.GetProperty("files")[0].EnumerateObject().Where(p => p.Value.ValueKind != JsonValueKind.Null).Select(p => p.Name);
        Assert.Equal([.. Keys[..8].Where(k => k != "remark"), "dc"], told);
    }

    [Fact]
    public void A_file_that_cannot_be_read_is_named_and_the_others_are_measured()
    {
        Write("one.wav", Tone(48000, -6));
        File.WriteAllText(_folder.File("song.txt"), "la la la la la");

        var run = Run("measure", "nowhere.wav", "one.wav", "song.txt");

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("nowhere.wav: there is no such file", run.Error, StringComparison.Ordinal);
        Assert.Contains("song.txt: this is not a WAV, AIFF or FLAC file", run.Error, StringComparison.Ordinal);
        Assert.Contains("True peak", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_sample_that_is_not_a_number_is_named_by_its_frame()
    {
        Write("bad.wav", new double[9000]);
        var bytes = File.ReadAllBytes(_folder.File("bad.wav"));
        BitConverter.TryWriteBytes(bytes.AsSpan(bytes.Length - (10 * 8)), double.NaN);
        File.WriteAllBytes(_folder.File("bad.wav"), bytes);

        var run = Run("measure", "bad.wav");

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("bad.wav: frame 8990 of channel 1 is not a number", run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Output);
    }

    [Fact]
    public void Several_files_stand_below_each_other_in_the_order_given()
    {
        Write("b.wav", Tone(48000, -6));
        Write("a.wav", Tone(48000, -12));

        var run = Run("measure", "b.wav", "a.wav");

        Assert.Equal(0, run.ExitCode);
        var rows = run.Output.Split('\n').Where(l => l.Contains(" −6.0 ", StringComparison.Ordinal) || l.Contains(" −12.0 ", StringComparison.Ordinal)).Select(l => l.Trim()[..1]);
        Assert.Equal(["b", "a"], rows);
    }

    [Fact]
    public void A_folder_is_measured_file_by_file_and_the_odd_format_stands_out()
    {
        Directory.CreateDirectory(_folder.File("raw"));
        Write("raw/b.wav", Tone(48000, -6));
        Write("raw/a.wav", Tone(48000, -12));
        Write("raw/wide.wav", Tone(48000, -12), Tone(48000, -12));
        File.WriteAllText(_folder.File("raw/notes.txt"), "la la la");

        var run = Run("measure", "raw");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("2 of 3: 48000 Hz, mono, 64 bit float. The others:", run.Output, StringComparison.Ordinal);
        Assert.Contains("48000 Hz, stereo, 64 bit float: wide", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_without_sound_files_is_named()
    {
        Directory.CreateDirectory(_folder.File("empty"));

        var run = Run("measure", "empty");

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("empty: there is no WAV, AIFF or FLAC file in this folder", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Hits_of_a_chain_are_those_under_which_it_plays_a_sound()
    {
        Write("one.wav", [.. new double[24000], .. Tone(48000, -6)]);
        File.WriteAllText(_folder.File("s.chain.json"), """
            { "chain": 1, "song": { "title": "S", "code": "S", "rate_hz": 48000 },
              "tracks": { "one": "one.wav" }, "impulses": { "tone": "one.wav" },
              "buses": { "under": { "from": { "one": 0 }, "through": [ { "layer": { "sound": "tone", "from_s": 0.45, "to_s": 0.7 } } ] } },
              "prints": [ { "number": 1, "name": "Under", "bus": "under" } ] }
            """);
        File.WriteAllText(_folder.File("plain.chain.json"), """
            { "chain": 1, "song": { "title": "S", "code": "S", "rate_hz": 48000 }, "tracks": { "one": "one.wav" },
              "buses": { "under": { "from": { "one": 0 } } }, "prints": [ { "number": 1, "name": "Under", "bus": "under" } ] }
            """);

        var screen = Run("measure", "--hits", "s.chain.json");
        var json = Run("measure", "--hits", "s.chain.json", "--json");
        var plain = Run("measure", "--hits", "plain.chain.json");
        var filtered = Run("measure", "--hits", "s.chain.json", "--key-high-pass", "100");

        Assert.Equal((0, ""), (screen.ExitCode, screen.Error));
        Assert.Contains("under: 'tone' under 1 hit\n", screen.Output.ReplaceLineEndings("\n"), StringComparison.Ordinal);
        Assert.Contains("0.5000", screen.Output, StringComparison.Ordinal);
        Assert.Contains("\"seconds\": 0.5,", json.Output, StringComparison.Ordinal);
        Assert.NotEqual(0, plain.ExitCode);
        Assert.Contains("no bus plays a sound under hits", plain.Error, StringComparison.Ordinal);
        Assert.Contains("--key-high-pass goes with recordings only", filtered.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void What_spill_takes_from_hits_is_told_before_it_is_printed()
    {
        // Four strokes of the snare, and between them four of the tom, which its microphone hears 18 dB down.
        double[] stroke = [.. Tone(9600, -6).Select((x, n) => x * Math.Exp(-n / 1500.0))];
        double[] Strokes(params (int At, double Height)[] strokes)
        {
            var line = new double[6 * 48000];
            foreach (var (at, height) in strokes)
            {
                for (var n = 0; n < stroke.Length; n++)
                {
                    line[(at * 24000) + n] += height * stroke[n];
                }
            }

            return line;
        }

        Write("snare.wav", Strokes((1, 0.5), (3, 0.5), (5, 0.5), (7, 0.5), (2, 0.12), (4, 0.12), (6, 0.12), (8, 0.12)));
        Write("tom.wav", Strokes((2, 1), (4, 1), (6, 1), (8, 1)));
        File.WriteAllText(_folder.File("s.chain.json"), """
            { "chain": 1, "song": { "title": "S", "code": "S", "rate_hz": 48000 },
              "tracks": { "snare": "snare.wav", "tom": "tom.wav" },
              "buses": { "snare only": { "from": { "snare": 0 }, "through": [ { "spill": { "key": "tom" } } ] } },
              "prints": [ { "number": 1, "name": "Snare", "bus": "snare only" } ] }
            """);

        var screen = Run("measure", "--hits", "s.chain.json");
        var json = Run("measure", "--hits", "s.chain.json", "--json");

        Assert.Equal((0, ""), (screen.ExitCode, screen.Error));
        Assert.Contains("snare only: what 'tom' hears better goes down by up to 12.0 dB\n", screen.Output.ReplaceLineEndings("\n"), StringComparison.Ordinal);
        Assert.Matches("hits +4 +", screen.Output);
        Assert.Matches("spill +4 +", screen.Output);
        using var figures = JsonDocument.Parse(json.Output);
        var spill = figures.RootElement.GetProperty("spills")[0];
        Assert.Empty(figures.RootElement.GetProperty("layers").EnumerateArray());
        Assert.Equal(4, spill.GetProperty("hits").GetArrayLength());
        Assert.All(spill.GetProperty("hits").EnumerateArray(), h => Assert.InRange(h.GetProperty("change_db").GetDouble(), -0.5, 0.1));
        Assert.All(spill.GetProperty("spill").EnumerateArray(), h => Assert.InRange(h.GetProperty("change_db").GetDouble(), -12.1, -5));
    }

    [Fact]
    public void Quiet_measures_without_a_word_but_of_what_went_wrong_and_json_still_comes()
    {
        Write("one.wav", Tone(48000, -6));

        var fine = Run("measure", "one.wav", "--quiet");
        var hits = Run("measure", "--hits", "one.wav", "--quiet", "--picture", "hits.svg");
        var missing = Run("measure", "one.wav", "nowhere.wav", "--quiet");
        var json = Run("measure", "one.wav", "--quiet", "--json");

        Assert.Equal((0, "", ""), (fine.ExitCode, fine.Output, fine.Error));
        Assert.Equal((0, "", ""), (hits.ExitCode, hits.Output, hits.Error));
        Assert.True(File.Exists(_folder.File("hits.svg")));
        Assert.Equal(3, missing.ExitCode);
        Assert.StartsWith("nowhere.wav: there is no such file", missing.Error, StringComparison.Ordinal);
        Assert.StartsWith("{", json.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_file_it_is_a_usage_error() => Assert.Equal(2, Run("measure").ExitCode);

    private static double[] Tone(int frames, double peakDb) =>
        [.. Enumerable.Range(0, frames).Select(n => Math.Pow(10, peakDb / 20) * Math.Sin(2 * Math.PI * 1000 * n / 48000))];

    private void Write(string name, params double[][] channels)
    {
        using var writer = WaveWriter.Create(_folder.File(name), new AudioFormat(48000, channels.Length), SampleEncoding.Float64, null, channels[0].Length);
        writer.Write(new AudioBlock(channels, 0, channels[0].Length));
        writer.Finish(channels[0].Length);
        writer.Publish();
    }

    private ProgramRun Run(params string[] arguments) => ProgramRun.Of(_folder.Path, arguments);
}
