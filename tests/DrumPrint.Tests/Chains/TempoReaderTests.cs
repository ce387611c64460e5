using DrumPrint.Chains;
using DrumPrint.Chains.Reading;

namespace DrumPrint.Tests.Chains;

public sealed class TempoReaderTests
{
    [Fact]
    public void Metre_and_tempo_carry_on_when_not_given()
    {
        var map = TempoReader.Read(Fixtures.Chain("raw/tempo.json"), "raw/tempo.json");

        Assert.Equal([new TempoStretch(17, 4, 4, 104), new TempoStretch(22, 2, 4, 104), new TempoStretch(23, 4, 4, 104)], map.Stretches);
        Assert.Equal([new Section(17, "verse 1"), new Section(19, "pre 1"), new Section(23, "chorus 1")], map.Sections);
        Assert.Equal((17, 26, "raw/tempo.json"), (map.FirstBar, map.LastBar, map.File));
    }

    [Theory]
    [InlineData("{ \"from_bar\": 1, \"bpm\": 104 }", "5", "bars[0].metre: 'metre' is missing; the first entry must say it, such as \"4/4\".")]
    [InlineData("{ \"from_bar\": 1, \"metre\": \"4/4\" }", "5", "bars[0].bpm: 'bpm' is missing; the first entry must say it, such as 104.")]
    [InlineData("{ \"from_bar\": 1, \"meter\": \"4/4\", \"bpm\": 104 }", "5", "bars[0].meter: 'meter' is not a key of a tempo entry. Did you mean 'metre'?")]
    [InlineData("{ \"from_bar\": 1, \"metre\": \"4/5\", \"bpm\": 104 }", "5", "bars[0].metre: '4/5' is not a metre; it takes 1 to 32 beats over 1, 2, 4, 8, 16 or 32, such as \"4/4\".")]
    [InlineData("{ \"from_bar\": 1, \"metre\": 4, \"bpm\": 104 }", "5", "bars[0].metre: 'metre' is the number 4; it takes a metre in quotes, such as \"4/4\".")]
    [InlineData("{ \"from_bar\": 1, \"metre\": \"4/4\", \"bpm\": 1040 }", "5", "bars[0].bpm: 'bpm' is 1040; it takes a number from 20 to 400. Nearest: 400.")]
    [InlineData("{ \"from_bar\": 3, \"metre\": \"4/4\", \"bpm\": 104 }, { \"from_bar\": 3 }", "5", "bars[1].from_bar: bar 3 comes after bar 3 in the list. List bars in order, each once.")]
    [InlineData("{ \"from_bar\": 3, \"metre\": \"4/4\", \"bpm\": 104 }", "2", "last_bar: the last bar is 2, but 'bars' goes on to 3. Nearest: 3.")]
    public void Mistakes_are_told_with_the_way_out(string bars, string lastBar, string expected)
    {
        var mistakes = Sample.Mistakes(() => TempoReader.Parse($$"""{ "tempo_map": 1, "bars": [ {{bars}} ], "last_bar": {{lastBar}} }""", "tempo.json"));

        Assert.EndsWith(expected, Assert.Single(mistakes), StringComparison.Ordinal);
    }

    [Fact]
    public void All_mistakes_come_at_once_and_in_order()
    {
        var mistakes = Sample.Mistakes(() => TempoReader.Parse(
            """
            { "tempo_map": 1,
              "bars": [ { "from_bar": 1.5, "metre": "4/4", "bpm": "104" } ],
              "sections": [ { "from_bar": 9, "name": "" } ],
              "last_bars": 5 }
            """,
            "tempo.json"));

        Assert.Equal(
            [
                "2:27: bars[0].from_bar: 'from_bar' is 1.5; it takes a whole number from 1 to 9999. Nearest: 2.",
                "2:55: bars[0].bpm: 'bpm' is the text \"104\"; it takes a number from 20 to 400. Write the bare number: 104.",
                "3:42: sections[0].name: 'name' is empty; it takes text in quotes.",
                "4:3: last_bars: 'last_bars' is not a key of a tempo map. Did you mean 'last_bar'?",
            ],
            mistakes);
    }

    [Fact]
    public void A_section_outside_the_song_is_told()
    {
        var mistakes = Sample.Mistakes(() => TempoReader.Parse(
            """{ "tempo_map": 1, "bars": [ { "from_bar": 17, "metre": "4/4", "bpm": 104 } ], "last_bar": 26, "sections": [ { "from_bar": 16, "name": "verse" } ] }""",
            "tempo.json"));

        Assert.EndsWith("sections[0].from_bar: there is no bar 16; the song runs from bar 17 to 26.", Assert.Single(mistakes), StringComparison.Ordinal);
    }

    [Fact]
    public void Mistakes_in_the_tempo_file_are_told_after_those_of_the_chain_with_their_own_file()
    {
        var folder = Directory.CreateTempSubdirectory("drumprint-");
        try
        {
            File.WriteAllText(Path.Combine(folder.FullName, "tempo.json"), "{ \"tempo_map\": 1 }");
            var path = Path.Combine(folder.FullName, "song.chain.json");
            var json = Sample.Chain(song: """{ "title": "A", "code": "A", "rate_hz": 48000, "tempo": "tempo.json", "key": 1 }""");

            var exception = Assert.Throws<ChainException>(() => ChainReader.Parse(json, path, TestCatalogue.All));

            Assert.Equal(["song.chain.json", "tempo.json", "tempo.json"], exception.Problems.Select(p => Path.GetFileName(p.File)));
            Assert.Equal(
                [
                    "bars: 'bars' is missing: there is no bar. Add at least the first, such as { \"from_bar\": 1, \"metre\": \"4/4\", \"bpm\": 104 }.",
                    "last_bar: 'last_bar' is missing; a tempo map needs a whole number from 1 to 9999.",
                ],
                exception.Problems.Skip(1).Select(p => $"{p.Place}: {p.Message}"));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Theory]
    [InlineData(16, 20, "from_bar: the tempo map has no bar 16; it runs from bar 17 to 26. Nearest: 17.")]
    [InlineData(18, 30, "to_bar: the tempo map has no bar 30; it runs from bar 17 to 26. Nearest: 26.")]
    [InlineData(20, 19, "to_bar: the ride ends with bar 19, but it starts at bar 20.")]
    public void Rides_keep_to_the_bars_of_the_song(int from, int to, string expected)
    {
        var json = Sample.Chain(
            song: """{ "title": "A", "code": "A", "rate_hz": 48000, "tempo": "raw/tempo.json" }""",
            buses: $$"""{ "kick": { "from": { "in": { "ride": [ { "from_bar": {{from}}, "to_bar": {{to}}, "db": 3 } ] } } } }""");

        var mistakes = Sample.Mistakes(() => ChainReader.Parse(json, Fixtures.Chain("song.chain.json"), TestCatalogue.All));

        Assert.EndsWith($"buses.kick.from.in.ride[0].{expected}", Assert.Single(mistakes), StringComparison.Ordinal);
    }

    [Fact]
    public void A_ride_of_one_bar_is_a_ride()
    {
        var json = Sample.Chain(
            song: """{ "title": "A", "code": "A", "rate_hz": 48000, "tempo": "raw/tempo.json" }""",
            buses: """{ "kick": { "from": { "in": { "ride": [ { "from_bar": 22, "to_bar": 22, "db": 3 } ] } } } }""");

        var chain = ChainReader.Parse(json, Fixtures.Chain("song.chain.json"), TestCatalogue.All);

        Assert.Equal(new Ride(22, 22, true, 3, 50), Assert.Single(chain.Buses[0].Feeds[0].Rides));
    }
}
