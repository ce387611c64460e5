using DrumPrint.Chains.Describing;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Tests.Chains;

public sealed class ProcessorReferenceTests
{
    [Fact]
    public void Every_processor_of_the_catalogue_has_a_page()
    {
        var pages = ProcessorReference.Pages();

        Assert.Equal(Catalogue.Newest.Select(d => (d.Key, d.Revision)), pages.Select(p => (p.Key, p.Revision)));
    }

    [Fact]
    public void A_page_shows_the_newest_sound_and_names_the_others()
    {
        var page = ProcessorReference.Find("gate", TestCatalogue.All)!;

        Assert.Equal(2, page.Revision);
        Assert.Equal([2, 1], page.Revisions);
        Assert.True(page.TakesKey);
        Assert.Equal(["key", "open_db", "hold_ms", "soft"], Assert.Single(page.Tables).Rows.Select(r => r.Key));
    }

    [Fact]
    public void Rows_say_what_a_setting_takes_and_what_holds_without_it()
    {
        var rows = ProcessorReference.Pages(TestCatalogue.All).SelectMany(p => p.Tables).SelectMany(t => t.Rows).ToList();

        Assert.Contains(new SettingRow("threshold_db", "a number from -80 to 0 dB", "-20 dB", "Where it starts."), rows);
        Assert.Contains(new SettingRow("key_high_pass_hz", "a number from 20 to 2000 Hz", "off", "High-pass before the detector."), rows);
        Assert.Contains(new SettingRow("oversampling", "one of 2, 4, 8, 16", "8", "How many times the rate."), rows);
        Assert.Contains(new SettingRow("soft", "true or false", "true", "Whether it closes gently."), rows);
        Assert.Contains(new SettingRow("impulse", "the name of an impulse, in quotes", "must be given", "The room."), rows);
        Assert.Contains(new SettingRow("speed_in_per_s", "15 or 30", "15", "How fast it runs. 15: Fuller; 30: Cleaner."), rows);
    }

    [Fact]
    public void A_default_that_hangs_on_another_setting_is_put_in_words()
    {
        var rows = ProcessorReference.Find("gate")!.Tables[0].Rows;

        Assert.Equal("6 dB under open_db", rows.First(r => r.Key == "close_db").Default);
    }

    [Fact]
    public void The_line_of_a_gate_shows_how_far_how_long_and_how_fast_it_closes() =>
        Assert.Equal("""{ "gate": { "open_db": -36, "hold_ms": 60, "release_ms": 150, "range_db": -60 } }""", ProcessorReference.Find("gate")!.Example);

    [Fact]
    public void The_example_of_every_processor_can_be_put_into_a_chain()
    {
        Assert.All(ProcessorReference.Pages(), page =>
        {
            var chain = ChainReader.Parse(
                $$"""
                { "chain": 1,
                  "song": { "title": "T", "code": "T", "rate_hz": 48000 },
                  "tracks": { "a": "a.wav", "other": "b.wav" },
                  "impulses": { "my hall": "hall.wav" },
                  "buses": { "b": { "from": { "a": 0 }, "through": [ {{page.Example}} ] } },
                  "prints": [ { "number": 1, "name": "B", "bus": "b" } ] }
                """,
                "test.chain.json");

            Assert.Equal(page.Key, Assert.Single(chain.Buses[0].Stages).Definition.Key);
        });
    }

    [Fact]
    public void A_mistyped_name_is_answered_with_the_nearest()
    {
        Assert.Null(ProcessorReference.Find("compres", TestCatalogue.All));
        Assert.Equal("compress", ProcessorReference.Nearest("compres", TestCatalogue.All));
    }

    [Fact]
    public void Markdown_has_a_table_for_the_settings_and_one_for_each_kind_of_item()
    {
        var text = ProcessorReference.Markdown([ProcessorReference.Find("eq", TestCatalogue.All)!]);

        Assert.Equal(
            """
            ## eq

            Stands for eq. Revision 1.

            ```jsonc
            { "eq": { "bands": [ { "high_pass": { "freq_hz": 1000, "slope_db_per_oct": 12 } }, { "bell": { "freq_hz": 1000, "gain_db": 3, "q": 1 } } ] } }
            ```

            | setting | takes | when left out | what it does |
            |---|---|---|---|
            | `bands` | a list of high_pass and bell | must be given | The bands. |

            ### high_pass

            Takes away the lows.

            | setting | takes | when left out | what it does |
            |---|---|---|---|
            | `freq_hz` | a number from 10 to 20000 Hz | must be given | Where it acts. |
            | `slope_db_per_oct` | one of 6, 12, 18, 24 dB/oct | 12 dB/oct | How steep. |

            ### bell

            Lifts or dips.

            | setting | takes | when left out | what it does |
            |---|---|---|---|
            | `freq_hz` | a number from 10 to 20000 Hz | must be given | Where it acts. |
            | `gain_db` | a number from -24 to 24 dB | must be given | How much. |
            | `q` | a number from 0.1 to 20 | 1 | How narrow. |

            """,
            text);
    }
}
