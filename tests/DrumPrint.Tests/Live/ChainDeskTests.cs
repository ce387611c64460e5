using System.Globalization;
using System.Text;
using DrumPrint.Chains;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Files;
using DrumPrint.Live;
using DrumPrint.Tests.Audio;
using DrumPrint.Tests.Demo;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Live;

public sealed class ChainDeskTests : IDisposable
{
    private const string Chain = """
        // A kit of one drum.
        {
          "chain": 1,
          "song": { "title": "Harbour", "code": "Harbour", "rate_hz": 48000 },
          "tracks": { "kick": "kick.wav" /* in the drum */, "out": { "file": "out.wav" } },
          "buses": {
            "drum": {
              "from": { "kick": 0, "out": -2 }, // both
              "through": [
                { "eq": { "bands": [ { "bell": { "freq_hz": 420, "gain_db": -3 } } ] } },
                { "compress": {
                    "ratio": 4,   // gently
                    "attack_ms": 10,
                } },
              ],
            },
          },
          "prints": [ { "number": 1, "name": "Drum", "bus": "drum" } ],
        }
        """;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("drumprint-");

    private string File => Path.Combine(_folder.FullName, "harbour.chain.json");

    [Theory]
    [InlineData("buses/drum/through/1/compress", "ratio", "6", "\"ratio\": 4,", "\"ratio\": 6,")]
    [InlineData("buses/drum/through/0/eq/bands/0/bell", "freq_hz", "500", "\"freq_hz\": 420", "\"freq_hz\": 500")]
    [InlineData("buses/drum/from/kick", "level_db", "-3", "\"kick\": 0,", "\"kick\": -3,")]
    [InlineData("buses/drum/from/kick", "pan_pct", "20", "\"kick\": 0,", "\"kick\": { \"level_db\": 0, \"pan_pct\": 20 },")]
    [InlineData("prints/0", "level_db", "-2", "\"bus\": \"drum\" }", "\"bus\": \"drum\", \"level_db\": -2 }")]
    [InlineData("tracks/kick", "level_db", "-2", "\"kick\": \"kick.wav\" /*", "\"kick\": { \"file\": \"kick.wav\", \"level_db\": -2 } /*")]
    public void A_value_is_written_where_it_stands_and_nothing_else_changes(string place, string key, string value, string before, string after)
    {
        var desk = Open(Chain);

        desk.Write([new ChainValue(place.Split('/'), key, value)]);

        Assert.Equal(Chain.Replace(before, after, StringComparison.Ordinal), Read());
    }

    [Theory]
    [InlineData("buses/drum/through/1/compress", "attack_ms", "            \"attack_ms\": 10,\n", "")]
    [InlineData("buses/drum/through/1/compress", "ratio", "\"ratio\": 4,   // gently", "// gently")]
    [InlineData("buses/drum/through/0/eq/bands/0/bell", "gain_db", "\"freq_hz\": 420, \"gain_db\": -3 }", "\"freq_hz\": 420 }")]
    public void A_value_that_goes_back_to_what_holds_without_it_is_taken_out(string place, string key, string before, string after)
    {
        var desk = Open(Chain);
        if (key == "gain_db")
        {
            Assert.Throws<ChainException>(() => desk.Write([new ChainValue(place.Split('/'), key, null)]));
            Assert.Equal(Chain, Read());
            return;
        }

        desk.Write([new ChainValue(place.Split('/'), key, null)]);

        Assert.Equal(Chain.ReplaceLineEndings("\n").Replace(before, after, StringComparison.Ordinal), Read().ReplaceLineEndings("\n"));
    }

    [Fact]
    public void A_thousand_random_changes_taken_back_leave_the_file_byte_for_byte_as_it_was()
    {
        var files = WrittenDemo.CopyTo(Path.Combine(_folder.FullName, "demo"));
        var before = System.IO.File.ReadAllBytes(files.Chain);
        var desk = new ChainDesk(files.Chain, ReadPolicy.Default, new QuickFiles());
        desk.Allow();
        var chance = new CounterNoise(15);
        var drawn = 0;
        var written = 0;
        int Below(int most) => (int)((chance.Bipolar(drawn++) + 1) / 2 * most * 0.999999);

        while (written < 1000)
        {
            if (RandomValue(desk.Chain, Below) is { } value && Tried(desk, value))
            {
                written++;
            }
        }

        Assert.NotEqual(before, System.IO.File.ReadAllBytes(files.Chain));
        for (var n = 0; n < written; n++)
        {
            desk.Undo();
        }

        Assert.Equal(before, System.IO.File.ReadAllBytes(files.Chain));
        Assert.Throws<UsageException>(() => desk.Undo());
    }

    [Fact]
    public void What_is_taken_back_can_be_done_again_and_is_told_in_words()
    {
        var desk = Open(Chain);
        var change = desk.Write([new ChainValue(["buses", "drum", "through", "1", "compress"], "ratio", "6")]);
        var after = Read();

        desk.Undo();
        var again = desk.Redo();

        Assert.Equal(after, Read());
        Assert.Contains("ratio", Assert.Single(change!.Sentences), StringComparison.Ordinal);
        Assert.Equal(change.Sentences, again.Sentences);
    }

    [Fact]
    public void A_full_disk_is_told_with_the_name_of_the_chain_and_the_file_stays()
    {
        System.IO.File.WriteAllText(File, Chain);
        var (at, refused) = (0, 0);
        while (true)
        {
            var steps = new FaultyFiles(Fault.Fails, at++);
            var desk = new ChainDesk(File, ReadPolicy.Default, steps);
            desk.Allow();
            var thrown = Record.Exception(() => desk.Write([new ChainValue(["buses", "drum", "from", "kick"], "level_db", "-3")]));
            if (steps.Where is null)
            {
                Assert.Null(thrown);
                break;
            }

            if (thrown is not null)
            {
                Assert.Contains("harbour.chain.json", thrown.Message, StringComparison.Ordinal);
                Assert.EndsWith("the file cannot be written: there is not enough room on the disk.", thrown.Message, StringComparison.Ordinal);
                refused++;
            }

            desk.Write([new ChainValue(["buses", "drum", "from", "kick"], "level_db", "-4")]);
            Assert.Contains("\"kick\": -4,", Read(), StringComparison.Ordinal);
            desk.Undo();
            System.IO.File.WriteAllText(File, Chain);
        }

        Assert.True(refused > 2, $"{refused} times");
    }

    [Fact]
    public void Nothing_is_written_before_it_is_allowed()
    {
        System.IO.File.WriteAllText(File, Chain);
        var desk = new ChainDesk(File);

        Assert.Throws<UsageException>(() => desk.Write([new ChainValue(["prints", "0"], "level_db", "-2")]));

        Assert.Equal(Chain, Read());
        Assert.Single(_folder.GetFiles());
    }

    [Fact]
    public void The_file_is_kept_as_it_was_before_the_first_change()
    {
        var desk = Open(Chain);
        desk.Write([new ChainValue(["prints", "0"], "level_db", "-2")]);
        desk.Write([new ChainValue(["prints", "0"], "level_db", "-3")]);

        Assert.Equal(Chain, System.IO.File.ReadAllText(desk.CopyPath));
    }

    [Fact]
    public void An_edit_from_outside_is_seen_and_ends_what_could_be_taken_back()
    {
        var desk = Open(Chain);
        desk.Write([new ChainValue(["prints", "0"], "level_db", "-2")]);
        var edited = Read().Replace("\"ratio\": 4", "\"ratio\": 8", StringComparison.Ordinal);
        System.IO.File.WriteAllText(File, edited);

        Assert.Contains("outside", Assert.Throws<UsageException>(() => desk.Undo()).Message, StringComparison.Ordinal);
        var change = desk.Look();

        Assert.Contains("ratio", Assert.Single(change!.Sentences), StringComparison.Ordinal);
        Assert.Contains("outside", Assert.Throws<UsageException>(() => desk.Undo()).Message, StringComparison.Ordinal);
        Assert.Equal(edited, Read());
    }

    [Fact]
    public void A_mistake_from_outside_is_told_at_its_place_and_the_last_good_chain_stays()
    {
        var desk = Open(Chain);
        System.IO.File.WriteAllText(File, Chain.Replace("\"ratio\": 4", "\"ratio\": 400", StringComparison.Ordinal));

        Assert.Null(desk.Look());

        Assert.Contains(desk.Mistakes, m => m.Contains("compress.ratio", StringComparison.Ordinal));
        Assert.Equal("Drum", Assert.Single(desk.Chain.Prints).Name);
        Assert.Throws<UsageException>(() => desk.Write([new ChainValue(["prints", "0"], "level_db", "-2")]));
        System.IO.File.WriteAllText(File, Chain);
        Assert.Null(desk.Look());
        Assert.Empty(desk.Mistakes);
    }

    [Fact]
    public void A_chain_file_that_is_gone_is_a_mistake_and_no_end()
    {
        var desk = Open(Chain);
        System.IO.File.Delete(File);

        Assert.Null(desk.Look());

        Assert.Contains("no such file", Assert.Single(desk.Mistakes), StringComparison.Ordinal);
    }

    public void Dispose() => _folder.Delete(recursive: true);

    private ChainDesk Open(string text)
    {
        System.IO.File.WriteAllText(File, text, new UTF8Encoding(false));
        var desk = new ChainDesk(File);
        desk.Allow();
        return desk;
    }

    private string Read() => System.IO.File.ReadAllText(File);

    private static bool Tried(ChainDesk desk, ChainValue value)
    {
        try
        {
            return desk.Write([value]) is not null;
        }
        catch (ChainException)
        {
            return false; // two settings that do not go together
        }
    }

    private static ChainValue? RandomValue(Chain chain, Func<int, int> below)
    {
        var bus = chain.Buses[below(chain.Buses.Count)];
        if (bus.Stages.Count == 0 || below(4) == 0)
        {
            var feed = bus.Feeds[below(bus.Feeds.Count)];
            return new ChainValue(["buses", bus.Name, "from", feed.Source], below(3) == 0 ? "pan_pct" : "level_db", Text(below(60) - 40));
        }

        var index = below(bus.Stages.Count);
        var stage = bus.Stages[index];
        string[] place = ["buses", bus.Name, "through", Text(index), stage.Definition.Key];
        var parameters = stage.Definition.Parameters;
        if (stage.Definition.Key == "eq")
        {
            var bands = stage.Settings[(ListParameter)parameters[0]];
            var band = below(bands.Count);
            place = [.. place, "bands", Text(band), bands[band].Kind.Key];
            parameters = bands[band].Kind.Parameters;
        }

        var parameter = parameters[below(parameters.Count)];
        return parameter switch
        {
            NumberParameter { IsRequired: false } number when below(6) == 0 => new ChainValue(place, number.Key, null),
            NumberParameter { Steps: { } steps } => new ChainValue(place, parameter.Key, Text(steps[below(steps.Count)])),
            NumberParameter number => new ChainValue(place, number.Key, Text(Math.Round(number.Minimum + ((number.Maximum - number.Minimum) * below(1000) / 1000), 3))),
            ChoiceParameter choice => new ChainValue(place, choice.Key, $"\"{choice.Choices[below(choice.Choices.Count)].Word}\""),
            ToggleParameter => new ChainValue(place, parameter.Key, below(2) == 0 ? "true" : "false"),
            _ => null,
        };
    }

    private static string Text(double value) => value.ToString(CultureInfo.InvariantCulture);
}
