using DrumPrint.Chains.Reading;

namespace DrumPrint.Tests.Chains;

/// <summary>The tempo map against the song's time table. The table is worked out by hand from bars, metres and tempi and
/// rounded down to whole samples at 48 kHz.</summary>
public sealed class TempoMapTests
{
    private const string Song = """
        {
          "tempo_map": 1,
          "bars": [
            { "from_bar": 1, "metre": "4/4", "bpm": 104 },
            { "from_bar": 22, "metre": "2/4" },
            { "from_bar": 23, "metre": "4/4" },
            { "from_bar": 46, "metre": "2/4" },
            { "from_bar": 47, "metre": "4/4" },
            { "from_bar": 55, "bpm": 102 },
            { "from_bar": 63, "bpm": 105 },
            { "from_bar": 81, "bpm": 102 },
            { "from_bar": 82, "bpm": 99 },
            { "from_bar": 83, "bpm": 96 },
            { "from_bar": 84, "bpm": 92 }
          ],
          "last_bar": 84
        }
        """;

    [Theory]
    [InlineData(200, 84)]
    [InlineData(122.3, 54)]
    [InlineData(2.4, 2)]
    [InlineData(0.001, 1)]
    public void A_map_goes_as_far_as_a_recording_and_no_further(double seconds, int lastBar)
    {
        var map = TempoReader.Parse(Song, "tempo.json").UpTo(seconds);

        Assert.Equal(lastBar, map.LastBar);
        Assert.True(map.SecondsAtBar(map.LastBar) < seconds);
        Assert.All(map.Stretches, s => Assert.True(s.FromBar <= lastBar));
    }

    [Theory]
    [InlineData(1, 0.000, 0)]
    [InlineData(3, 4.615, 221538)]
    [InlineData(7, 13.846, 664615)]
    [InlineData(19, 41.538, 1993846)]
    [InlineData(23, 49.615, 2381538)]
    [InlineData(31, 68.077, 3267692)]
    [InlineData(43, 95.769, 4596923)]
    [InlineData(47, 103.846, 4984615)]
    [InlineData(55, 122.308, 5870769)]
    [InlineData(63, 141.131, 6774299)]
    [InlineData(79, 177.703, 8529727)]
    [InlineData(85, 192.160, 9223678)]
    public void Sections_start_on_the_sample_of_the_time_table(int bar, double seconds, long sample)
    {
        var map = TempoReader.Parse(Song, "tempo.json");

        var start = map.SecondsAtBar(bar);

        Assert.Equal(seconds, start, 3);
        Assert.Equal(sample, (long)Math.Round(start * 48000));
    }

    /// <summary>The short cut starts with bar 17. Two bars of 4/4 later comes bar 19. Five and a bar of 2/4 later comes bar
    /// 23. The end of bar 26 lies 38 quarters in.</summary>
    [Theory]
    [InlineData(17, 0)]
    [InlineData(19, 8)]
    [InlineData(22, 20)]
    [InlineData(23, 22)]
    [InlineData(24.5, 28)]
    [InlineData(27, 38)]
    public void A_cut_counts_time_from_its_first_bar(double bar, int quarters)
    {
        var map = TempoReader.Read(Fixtures.Chain("raw/tempo.json"));
        var expected = quarters * 60 / 104.0;

        Assert.Equal(expected, map.SecondsAtBar(bar), Tolerance.Rounding * 100);
        Assert.Equal(bar, map.BarAtSeconds(expected), Tolerance.Rounding * 100);
    }

    [Fact]
    public void Bars_and_seconds_are_each_other_s_inverse()
    {
        var map = TempoReader.Parse(Song, "tempo.json");

        for (var bar = 1.0; bar < 85; bar += 0.125)
        {
            Assert.Equal(bar, map.BarAtSeconds(map.SecondsAtBar(bar)), Tolerance.Rounding * 100);
        }
    }

    [Fact]
    public void Eighths_last_half_as_long_as_quarters()
    {
        var map = TempoReader.Parse("""{ "tempo_map": 1, "bars": [ { "from_bar": 1, "metre": "6/8", "bpm": 90 } ], "last_bar": 2 }""", "tempo.json");

        Assert.Equal(3 * 60 / 90.0, map.SecondsAtBar(2), Tolerance.Rounding);
    }
}
