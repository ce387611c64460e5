using System.Text.RegularExpressions;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Toolkit;

public sealed partial class ExampleTests
{
    private const int Rate = 48000;

    [Fact]
    public void Every_example_of_the_readme_is_compiled_here_line_by_line()
    {
        var compiled = Text("Example.cs").Split('\n').Select(l => l.Trim()).ToHashSet();

        var examples = CodeBlock().Matches(Text("Dsp.README.md")).SelectMany(m => m.Groups[1].Value.Split('\n')).Select(l => l.Trim()).Where(l => l.Length > 0).ToList();

        Assert.True(examples.Count >= 13);
        Assert.All(examples, line => Assert.Contains(line, compiled));
    }

    [Fact]
    public void The_equaliser_and_compressor_of_the_readme_do_what_their_settings_say()
    {
        var drums = Signals.Sine(Rate, 350, 0.5);

        var printed = Example.EqualiserAndCompressor([drums, drums]);

        // −4 dB of the bell leaves a peak of −10.02 dB, 13.98 dB over the threshold. A ratio of 4 leaves a quarter of that: −20.5
        // dB.
        var peak = 20 * Math.Log10(printed[0][(Rate / 2)..Rate].Max(Math.Abs));
        Assert.Equal(2, printed.Length);
        Assert.InRange(peak, -20.7, -20.0);
        Assert.Equal(printed[0], printed[1]);
        Assert.True(printed[0].Length >= Rate);
        Assert.Equal(0.5, drums.Max(), 0.001);
    }

    [Fact]
    public void A_row_takes_out_latency_and_adds_the_tail()
    {
        var click = new double[4800];
        click[100] = 1;

        var late = WholeSignal.Through([click], Rate, Delay.Definition.With(Delay.Time.To(1.01)), Saturate.Definition.With());

        Assert.Equal(100 + 48, Array.IndexOf(late[0], late[0].Max()));
        Assert.True(late[0].Length >= 4800 + 48);
    }

    [Fact]
    public void A_detector_that_listens_to_another_signal_hears_it_in_time()
    {
        var kick = new double[Rate];
        Array.Fill(kick, 0.5, 24000, 4800);
        var steady = new double[Rate];
        Array.Fill(steady, 1.0);

        var ducked = WholeSignal.Through([steady], Rate, Example.ListeningToAnother([kick]));

        Assert.Equal(1, ducked[0][23000], 1e-9);
        Assert.Equal(Math.Pow(10, -6 / 20.0), ducked[0][28000], 1e-3);
    }

    [Fact]
    public void Block_by_block_gives_the_same_bits()
    {
        var squash = Compress.Definition.With(Compress.Threshold.To(-24));
        double[][] drums = [Signals.Sine(1000, 200, 0.9), Signals.Sine(1000, 333, 0.7)];
        var whole = WholeSignal.Through(drums, Rate, squash);

        Example.BlockByBlock(squash, drums, 1000, 0, 1000);

        var late = squash.Definition.Create(squash.Settings, new ProcessorContext(new AudioFormat(Rate, 2), 1000)).LatencyFrames;
        Assert.Equal(whole[0][..(1000 - late)], drums[0][late..]);
        Assert.Equal(whole[1][..(1000 - late)], drums[1][late..]);
    }

    [Fact]
    public void A_whole_number_is_as_good_as_a_fraction()
    {
        var settings = Settings.Of(Compress.Definition.Parameters, (Compress.Threshold, -18), (Compress.Ratio, 4L), (Compress.Knee, 3f));

        Assert.Equal(-18, settings[Compress.Threshold]);
        Assert.Equal(4, settings[Compress.Ratio]);
        Assert.Equal(3, settings[Compress.Knee]);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(3)]
    public void Other_than_one_channel_or_two_is_refused_by_every_processor(int channels)
    {
        var context = new ProcessorContext(new AudioFormat(Rate, channels), 0);
        var eq = Eq.Definition.With(Eq.Bands.To());

        var refused = Assert.Throws<ArgumentException>(() => eq.Definition.Create(eq.Settings, context));

        Assert.Equal($"'eq' takes one channel or two; the signal has {channels}.", refused.Message);
        Assert.All(Catalogue.All.Where(d => d.Parameters.All(p => !p.IsRequired)), d => Assert.Throws<ArgumentException>(() => d.Create(d.With().Settings, context)));
    }

    [Fact]
    public void Settings_of_another_processor_are_refused_by_name()
    {
        var gate = Gate.Definition.With();

        var refused = Assert.Throws<SettingsException>(() => Compress.Definition.Create(gate.Settings, new ProcessorContext(new AudioFormat(Rate, 1), 0)));

        Assert.StartsWith("These are settings of 'gate' (", refused.Message, StringComparison.Ordinal);
        Assert.Contains("'compress' needs its own (topology, threshold_db", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_setting_of_another_processor_is_refused_by_name()
    {
        var width = Assert.Throws<SettingsException>(() => Compress.Definition.With(Width.Amount.To(50)));
        var same = Assert.Throws<SettingsException>(() => Compress.Definition.With(Duck.Threshold.To(-20)));
        var read = Assert.Throws<SettingsException>(() => Compress.Definition.With().Settings[Width.Amount]);

        Assert.StartsWith($"'{Width.Amount.Key}' does not belong to 'compress'; it takes topology, threshold_db", width.Message, StringComparison.Ordinal);
        Assert.Equal("This 'threshold_db' is declared elsewhere and does not belong to 'compress', which declares its own.", same.Message);
        Assert.Equal(width.Message, read.Message);
    }

    [Fact]
    public void A_band_of_another_list_is_refused_by_name()
    {
        var strange = new ItemKind("comb", "Not a band.", []);

        var refused = Assert.Throws<SettingsException>(() => Eq.Definition.With(Eq.Bands.To(strange.With())));

        Assert.Equal("'comb' is not for 'bands'; it takes a list of high_pass, low_pass, low_shelf, high_shelf, bell, tilt.", refused.Message);
    }

    [Fact]
    public void A_setting_that_is_off_is_refused_where_a_number_is_asked_for()
    {
        var settings = Compress.Definition.With().Settings;

        Assert.Null(settings.Find(Compress.KeyHighPass));
        Assert.Equal("'key_high_pass_hz' is off, so it has no value.", Assert.Throws<SettingsException>(() => settings[Compress.KeyHighPass]).Message);
    }

    private static string Text(string name)
    {
        using var reader = new StreamReader(typeof(ExampleTests).Assembly.GetManifestResourceStream(name)!);
        return reader.ReadToEnd().ReplaceLineEndings("\n");
    }

    [GeneratedRegex("```csharp\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex CodeBlock();
}
