using System.Text.Json;
using System.Text.RegularExpressions;
using DrumPrint.Audio;
using DrumPrint.Comparing;
using DrumPrint.Comparing.Album;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Dsp;
using DrumPrint.Language;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Comparing;

public sealed class ComparisonPageTests : IDisposable
{
    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void The_page_carries_the_samples_as_they_are()
    {
        var x = Write("a.wav", 48000, Music.Hits(1));
        var y = Write("b.wav", 48000, Music.Hits(1, seed: 2), Music.Hits(1, seed: 3));

        var page = Page("a.wav", "b.wav");

        Assert.Equal(x[0], Samples(page, "a", 1)[0]);
        Assert.Equal(y[1], Samples(page, "b", 2)[1]);
    }

    [Fact]
    public void A_session_at_96_kHz_is_listened_to_at_48()
    {
        Write("a.wav", 96000, Music.Hits(1));

        using var data = Data(Page("a.wav", "a.wav"));

        Assert.Equal(48000, data.RootElement.GetProperty("prints")[0].GetProperty("audio").GetProperty("rate_hz").GetInt32());
        Assert.Equal(96000, data.RootElement.GetProperty("passage").GetProperty("rate_hz").GetInt32());
    }

    [Fact]
    public void The_page_names_no_address_and_every_slot_is_filled()
    {
        Write("a.wav", 48000, Music.Hits(1));

        var page = Page("a.wav", "a.wav");

        Assert.DoesNotContain("{{", page, StringComparison.Ordinal);
        Assert.DoesNotMatch("(src|href|action)=", page);
        Assert.Equal(["http://www.w3.org/2000/svg"], Regex.Matches(page, @"https?://[^'""\s]+").Select(m => m.Value).Distinct());
    }

    [Fact]
    public void A_name_cannot_break_out_of_the_page()
    {
        Write("</script><b>&.wav".Replace('/', '_'), 48000, Music.Hits(1));
        Write("<_script>{{data}}.wav", 48000, Music.Hits(1, seed: 2));

        var page = Page("<_script><b>&.wav", "<_script>{{data}}.wav");

        Assert.DoesNotContain("<b>&", page, StringComparison.Ordinal);
        Assert.Contains("&lt;_script&gt;{{data}}.wav", page, StringComparison.Ordinal);
        using var data = Data(page);
        Assert.Equal("<_script><b>&.wav", data.RootElement.GetProperty("a").GetProperty("name").GetString());
    }

    [Fact]
    public void The_json_tells_what_was_measured()
    {
        Write("a.wav", 48000, Music.Hits(2));
        Write("b.wav", 48000, Music.Hits(2).Times(0.5));
        var report = Comparer.Compare(File("a.wav"), File("b.wav"), new ComparisonOptions { TrimDb = 0.25 });

        using var stream = new MemoryStream();
        ComparisonJson.Write(stream, report);
        using var json = JsonDocument.Parse(stream.ToArray());
        var root = json.RootElement;

        Assert.Equal(ComparisonJson.Format, root.GetProperty("comparison").GetInt32());
        Assert.Equal(20 * Math.Log10(2), root.GetProperty("match").GetProperty("offset_db").GetDouble(), 0.001);
        Assert.Equal(0.25, root.GetProperty("match").GetProperty("trim_db").GetDouble());
        Assert.Equal(31, root.GetProperty("third_octaves").GetArrayLength());
        Assert.True(root.GetProperty("null").GetProperty("is_pure_gain").GetBoolean());
        Assert.Equal(JsonValueKind.Null, root.GetProperty("addition").ValueKind);
        Assert.Equal(report.Main.Verdict, root.GetProperty("verdict").GetString());
    }

    [Theory]
    [InlineData(double.NegativeInfinity, "mono")]
    [InlineData(double.PositiveInfinity, "side only")]
    [InlineData(-28.84, "−28.8 dB")]
    public void A_width_without_side_or_middle_is_a_word(double db, string words) => Assert.Equal(words, Words.Width(db));

    [Fact]
    public void A_figure_is_rounded_once_where_it_is_shown_and_not_in_the_json()
    {
        Write("a.wav", 48000, Music.Hits(2));
        Write("b.wav", 48000, Music.Hits(2).Dulled());
        var report = Comparer.Compare(File("a.wav"), File("b.wav"), new ComparisonOptions());

        using var stream = new MemoryStream();
        ComparisonJson.Write(stream, report);
        using var json = JsonDocument.Parse(stream.ToArray());
        var root = json.RootElement;

        Assert.Equal(report.Main.Null.RmsDb, root.GetProperty("null").GetProperty("rms_db").GetDouble());
        Assert.Equal(report.Main.A.Measures.CrestDb, root.GetProperty("a").GetProperty("measures").GetProperty("crest_db").GetDouble());
        Assert.Equal(report.Main.Hits.AttackDb, root.GetProperty("hits").GetProperty("attack_db").GetDouble());
        Assert.Equal(report.Main.Hits.AtS, root.GetProperty("hits").GetProperty("at_s").EnumerateArray().Select(v => v.GetDouble()));
        Assert.Equal(report.Main.ThirdOctaves[20].DifferenceDb, root.GetProperty("third_octaves")[20].GetProperty("difference_db").GetDouble());
    }

    [Fact]
    public void An_album_follows_each_print_from_song_to_song_against_its_rough()
    {
        foreach (var (song, level, rough) in new[] { ("one", 1.0, 0.5), ("two", 1.0, 1.0), ("three", 0.4, 0.3) })
        {
            Directory.CreateDirectory(File(song));
            Write(song + "/01_Kick_Song_v1.wav", 48000, Music.Hits(2).Times(level));
            Write(song + "/90_RoughPreBus_Song_v1.wav", 48000, Music.Hits(2, seed: 5).Times(rough));
        }

        Write("two/02_Chamber_Song_v1.wav", 48000, Music.Hits(2, seed: 7));

        var report = AlbumComparer.Compare([File("one"), File("two"), File("three")]);

        Assert.True(report.HasRough);
        Assert.Equal(["Kick", "Chamber"], report.Prints.Select(p => p.Name));
        Assert.Equal(20 * Math.Log10(2), report.Prints[0].MoveLu!.Value, 0.01);
        Assert.Contains("Kick moves most against the rough of each song: 6.0 LU, from two (softest) to one (loudest).", report.Verdict, StringComparison.Ordinal);
        Assert.Contains("Not in every song: Chamber.", report.Verdict, StringComparison.Ordinal);
    }

    private string File(string name) => Path.Combine(_session.Folder, name);

    private string Page(string a, string b)
    {
        ComparisonPage.Write(File("page.html"), Comparer.Compare(File(a), File(b), new ComparisonOptions()));
        return System.IO.File.ReadAllText(File("page.html"));
    }

    private static JsonDocument Data(string page) => JsonDocument.Parse(Regex.Match(page, "id=\"data\">(.*?)</script>", RegexOptions.Singleline).Groups[1].Value);

    private static double[][] Samples(string page, string side, int channels)
    {
        var bytes = Convert.FromBase64String(Regex.Match(page, $"id=\"audio-0-{side}\">(.*?)</script>", RegexOptions.Singleline).Groups[1].Value);
        var frames = bytes.Length / 3 / channels;
        double At(int i) => ((bytes[3 * i] << 8) | (bytes[(3 * i) + 1] << 16) | (bytes[(3 * i) + 2] << 24)) / 256 / 8388608.0;
        return [.. Enumerable.Range(0, channels).Select(c => Enumerable.Range(0, frames).Select(n => At((n * channels) + c)).ToArray())];
    }

    private double[][] Write(string name, int rate, params double[][] channels)
    {
        var rounded = channels.Select(c => c.Select(x => Math.Round(x * (1 << 23)) / (1 << 23)).ToArray()).ToArray();
        using var writer = WaveWriter.Create(File(name), new AudioFormat(rate, channels.Length), SampleEncoding.Pcm24, null, channels[0].Length);
        writer.Write(new AudioBlock(rounded, 0, channels[0].Length));
        writer.Finish(channels[0].Length);
        writer.Publish();
        return rounded;
    }
}
