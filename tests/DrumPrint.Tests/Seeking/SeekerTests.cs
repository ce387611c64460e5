using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using DrumPrint.Checking;
using DrumPrint.Comparing;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Delivering;
using DrumPrint.Diff;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Store;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Seeking;

public sealed class SeekerTests : IDisposable
{
    private const int Rate = TestSession.Rate;
    private const int Apart = 24000;

    // Half a grid step, and what a peak read at the samples misses of the wave between them.
    private const double Near = 0.15;

    private readonly TestSession _session = new();

    public SeekerTests() => _session.Track("hits.wav", Hits(0));

    public void Dispose() => _session.Dispose();

    [Theory]
    [InlineData(6)]
    [InlineData(2.5)]
    public void A_compressor_turns_loud_hits_down_by_what_was_asked(double wanted)
    {
        var chain = _session.Chain(Compressed($$"""{ "for_reduction_db": {{wanted.ToString(CultureInfo.InvariantCulture)}} }"""));

        var report = _session.Print(chain, new PrintOptions { Encoding = SampleEncoding.Float32 });

        // By the samples that went in and came out: the deepest of each loud hit, in the middle of all.
        var (before, after) = (Hits(0), _session.Read(report.Prints[0].FileName)[0]);
        var reductions = Enumerable.Range(0, 12).Where(IsLoud).Select(h => Reduction(before, after, h * Apart)).Order().ToArray();
        Assert.InRange((reductions[3] + reductions[4]) / 2, wanted - Near, wanted + Near);
        Assert.Contains(report.Notes, n => n.StartsWith("Found: threshold −", StringComparison.Ordinal) && n.Contains("turns 8 loud hits down by", StringComparison.Ordinal));
    }

    [Fact]
    public void The_number_depends_on_neither_threads_nor_blocks()
    {
        var chain = _session.Chain(Everything);
        var reports = new[] { (1, 4096), (2, 1000), (5, 333) }
            .Select((o, i) => _session.Print(chain, new PrintOptions { Threads = o.Item1, BlockFrames = o.Item2, OutFolder = Path.Combine(_session.Folder, $"out{i}") }))
            .ToList();

        Assert.All(reports, r => Assert.Equal(ChainWriter.Canonical(reports[0].Chain), ChainWriter.Canonical(r.Chain)));
        Assert.All(reports, r => Assert.Equal(File.ReadAllBytes(TicketOf(reports[0])), File.ReadAllBytes(TicketOf(r))));
    }

    [Fact]
    public void A_ticket_holds_what_was_found_and_prints_the_same_without_looking()
    {
        var report = _session.Print(_session.Chain(Everything));
        var ticket = Ticket.Read(TicketOf(report));
        Assert.All(Wanted(ticket.Chain), w => Assert.NotNull(w.Found));
        _session.Track("hits.wav", Hits(-20));
        var again = ChainReader.Parse(ChainWriter.Canonical(ticket.Chain), Path.Combine(_session.Folder, "again.chain.json"));

        var anew = _session.Print(again, new PrintOptions { OutFolder = Path.Combine(_session.Folder, "again") });

        Assert.Equal(Wanted(ticket.Chain).Select(w => w.Found), Wanted(anew.Chain).Select(w => w.Found));
        Assert.DoesNotContain(anew.Notes, n => n.StartsWith("Found", StringComparison.Ordinal));
    }

    [Fact]
    public void The_same_chain_finds_its_threshold_in_a_song_that_was_recorded_lower()
    {
        var loud = Found(_session.Print(_session.Chain(Compressed("""{ "for_reduction_db": 6 }"""))));
        _session.Track("hits.wav", Hits(-9));

        var soft = Found(_session.Print(_session.Chain(Compressed("""{ "for_reduction_db": 6 }"""))));

        Assert.InRange(soft, loud - 9.1, loud - 8.9);
    }

    [Fact]
    public void A_gate_opens_a_decibel_under_the_softest_hit_it_is_to_keep()
    {
        var chain = _session.Chain(Body("""{ "gate": { "open_db": { "keep_hits_above_db": -15 }, "range_db": -80, "look_ahead_ms": 5 } }"""));

        var report = _session.Print(chain, new PrintOptions { Encoding = SampleEncoding.Float32 });

        // The hits peak at −10, −14 and −20 dB in turn.
        Assert.InRange(Found(report), -15 - Near, -15 + Near);
        var (before, after) = (Hits(0), _session.Read(report.Prints[0].FileName)[0]);
        Assert.All(Enumerable.Range(0, 12), h => Assert.True(IsLoud(h) == Loudest(after, h * Apart) > 0.9 * Loudest(before, h * Apart), $"hit {h}"));
        Assert.Contains(report.Notes, n => n.Contains("lets all 8 hits of −15 dB and more through, and none below", StringComparison.Ordinal));
    }

    [Fact]
    public void A_ducker_heeds_the_hits_of_its_key()
    {
        _session.Track("pad.wav", Signals.Sine(12 * Apart, 300, 0.2));
        var chain = _session.Chain("""
            "tracks": { "hits": "hits.wav", "pad": "pad.wav" },
            "buses": { "out": { "from": { "pad": 0 }, "through": [ { "duck": { "key": "hits", "threshold_db": { "for_hits_above_db": -12 }, "amount_db": 12 } } ] } },
            "prints": [ { "number": 1, "name": "Out", "bus": "out" } ]
            """);

        var report = _session.Print(chain);

        Assert.InRange(Found(report), -11 - Near, -11 + Near);
        Assert.Contains(report.Notes, n => n.Contains("gives way to all 4 hits of −12 dB and more, and to none below", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(100)]
    [InlineData(60)]
    public void Make_up_gives_out_what_came_in_by_a_loudness_meter(int mix)
    {
        _session.Track("hits.wav", Hits(0)[..(6 * Apart)]); // each level twice
        var chain = _session.Chain($$"""
            "tracks": { "hits": "hits.wav" },
            "buses": { "in": { "from": { "hits": -9 } }, "out": { "from": { "hits": -9 }, "through": [ { "compress": { "threshold_db": -39, "ratio": 8, "mix_pct": {{mix}}, "make_up_db": "match_loudness" } } ] } },
            "prints": [ { "number": 1, "name": "In", "bus": "in" }, { "number": 2, "name": "Out", "bus": "out" } ]
            """);

        var report = _session.Print(chain);

        // Half a step of the grid.
        Assert.InRange(report.Prints[1].IntegratedLufs, report.Prints[0].IntegratedLufs - 0.06, report.Prints[0].IntegratedLufs + 0.06);
        Assert.True(Found(report) > 3);
    }

    [Fact]
    public void What_cannot_be_met_is_refused_with_the_nearest_that_can()
    {
        var far = Assert.Throws<ChainException>(() => _session.Print(_session.Chain(Body("""{ "compress": { "threshold_db": { "for_reduction_db": 40 }, "ratio": 1.2 } }"""))));
        var none = Assert.Throws<ChainException>(() => _session.Print(_session.Chain(Body("""{ "gate": { "open_db": { "keep_hits_above_db": -3 } } }"""))));

        Assert.Contains("buses.out.through[0].compress.threshold_db: 8 loud hits cannot be turned down by 40 dB in the middle: a threshold of −80 dB comes nearest, with ", far.Message, StringComparison.Ordinal);
        Assert.Contains("no hit peaks at −3 dB or more; the loudest is at −10.0 dB.", none.Message, StringComparison.Ordinal);
        Assert.Empty(_session.Files());
    }

    [Theory]
    [InlineData("""{ "for_reduction": 6 }""", "Did you mean 'for_reduction_db'")]
    [InlineData("""{ }""", "'for_reduction_db' is missing")]
    [InlineData("""{ "for_reduction_db": 90 }""", "Nearest: 40.")]
    [InlineData("""{ "for_reduction_db": 6, "on": "hits" }""", "it takes loud_hits, all_hits")]
    [InlineData("\"loud\"", "or { \"for_reduction_db\": 6, \"on\": \"loud_hits\" }")]
    public void A_slip_in_a_goal_is_told(string written, string told)
    {
        var refused = Assert.Throws<ChainException>(() => _session.Chain(Compressed(written)));
        var empty = Assert.Throws<ChainException>(() => _session.Chain(Body("""{ "compress": { "make_up_db": { } } }""")));

        Assert.Contains("'make_up_db' takes a number from -40 to 40 dB, or \"match_loudness\".", empty.Message, StringComparison.Ordinal);

        Assert.Contains(told, refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_store_remembers_what_was_found_and_drops_what_was_changed()
    {
        var kept = new Kept(_session);
        var chain = _session.Chain(Everything);
        var first = kept.PrintAsCold(chain);

        Assert.Empty(Kept.Rendered(kept.PrintAsCold(chain)));
        Assert.Equal(4, StoreContents.List(kept.Store).Count(e => e.Kind == StoreEntryKind.Number));

        foreach (var file in Directory.GetFiles(Path.Combine(kept.Store, "prints"), "*.found"))
        {
            File.WriteAllText(file, File.ReadAllText(file).Replace("\"number\":\"-", "\"number\":\"-1", StringComparison.Ordinal));
        }

        var report = kept.PrintAsCold(chain);
        Assert.Equal(first.Notes, report.Notes);
        Assert.Contains(report.StoreNotes, n => n.Contains("Damaged", StringComparison.Ordinal));
    }

    [Fact]
    public void Other_raw_files_are_listened_to_anew()
    {
        var kept = new Kept(_session);
        var before = Found(kept.PrintAsCold(_session.Chain(Compressed("""{ "for_reduction_db": 6 }"""))));
        _session.Track("hits.wav", Hits(-6));

        var after = Found(kept.PrintAsCold(_session.Chain(Compressed("""{ "for_reduction_db": 6 }"""))));

        Assert.InRange(after, before - 6.1, before - 5.9);
    }

    [Fact]
    public void A_chain_and_its_own_prints_do_not_differ()
    {
        var path = Path.Combine(_session.Folder, "test.chain.json");
        File.WriteAllText(path, $$"""{ "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": {{Rate}} }, {{Everything}} }""");
        var chain = ChainReader.Read(path);
        var report = _session.Print(chain);

        Assert.Empty(Differ.Compare(path, report.OutFolder).Changes);
        Assert.NotNull(Deliverer.Deliver(chain, new DeliveryOptions { To = Path.Combine(_session.Folder, "to") }));
        Assert.NotNull(Checker.Check(path, new CheckOptions()));
        Assert.True(Comparer.Compare(path, path, new ComparisonOptions()).Main.Null.IsIdentical);
    }

    private static string Everything => """
        "tracks": { "hits": "hits.wav" },
        "buses": {
          "gated": { "from": { "hits": 0 }, "through": [ { "gate": { "open_db": { "keep_hits_above_db": -15 } } } ] },
          "out": { "from": { "gated": 0 }, "through": [ { "compress": { "threshold_db": { "for_reduction_db": 8, "on": "all_hits" }, "ratio": 6, "make_up_db": "match_loudness" } } ] } },
        "prints": [ { "number": 1, "name": "Out", "bus": "out" } ],
        "drum_bus": { "through": [ { "compress": { "threshold_db": { "for_reduction_db": 2 }, "ratio": 2 } } ] }
        """;

    private static string Compressed(string threshold) => Body($$"""{ "compress": { "threshold_db": {{threshold}}, "ratio": 4, "attack_ms": 1, "release_ms": 60 } }""");

    private static string Body(string stage) => $$"""
        "tracks": { "hits": "hits.wav" },
        "buses": { "out": { "from": { "hits": 0 }, "through": [ {{stage}} ] } },
        "prints": [ { "number": 1, "name": "Out", "bus": "out" } ]
        """;

    private static string TicketOf(PrintReport report) => Path.Combine(report.OutFolder, Ticket.FileName(report.Chain.Song));

    private static IEnumerable<Sought> Wanted(Chain chain) => chain.Buses.SelectMany(b => b.Stages).Concat(chain.DrumBus).SelectMany(s => s.Settings.Wanted).Select(w => w.Value);

    private static double Found(PrintReport report) => Wanted(report.Chain).First().Found!.Value;

    private static bool IsLoud(int hit) => hit % 3 < 2;

    // Twelve hits of a low drum, at −10, −14 and −20 dB in turn.
    private static double[] Hits(double levelDb)
    {
        var hits = new double[12 * Apart];
        for (var h = 0; h < 12; h++)
        {
            var level = Math.Pow(10, ((h % 3 == 0 ? -10 : h % 3 == 1 ? -14 : -20) + levelDb) / 20);
            var peak = Enumerable.Range(0, 2000).Max(n => Math.Abs(Drum(n)));
            for (var n = 0; n < Apart - 4800; n++)
            {
                hits[(h * Apart) + 2400 + n] += level / peak * Drum(n);
            }
        }

        return hits;
    }

    private static double Drum(int n) => Math.Sin(2 * Math.PI * 200 * n / Rate) * Math.Exp(-n / 3000.0);

    private static double Reduction(double[] before, double[] after, int start)
    {
        var lowest = 1.0;
        for (var n = start + 2400; n < start + 2400 + 7200; n++)
        {
            lowest = Math.Abs(before[n]) > 0.01 ? Math.Min(lowest, Math.Abs(after[n] / before[n])) : lowest;
        }

        return -20 * Math.Log10(lowest);
    }

    private static double Loudest(double[] x, int start) => x.AsSpan(start, Apart).ToArray().Max(Math.Abs);
}
