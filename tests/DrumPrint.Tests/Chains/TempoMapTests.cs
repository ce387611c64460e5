using DrumPrint.Chains;

namespace DrumPrint.Tests.Chains;

/// <summary>The tempo map against the song's time table, worked out by hand from bars, metres and tempi and rounded down to
/// whole samples at 48 kHz.</summary>
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
}
