using DrumPrint.Chains;
using DrumPrint.Diff;
using DrumPrint.Session;
using DrumPrint.Tests.Chains;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Diff;

public sealed class DifferTests : IDisposable
{
    private const string Head = "{ \"chain\": 1, \"song\": { \"title\": \"Test\", \"code\": \"Test\", \"rate_hz\": 48000, \"tempo\": \"tempo.json\" },\n";
    private readonly TestSession _session = new();

    public DifferTests() => BusySession.Write(_session);

    public void Dispose() => _session.Dispose();

    [Fact]
    public void Chains_that_mean_the_same_differ_in_nothing()
    {
        var one = Write("one", BusySession.Body);
        var other = Write("other", BusySession.Body.Replace("\"ratio\": 4", "/* four */ \"ratio\": 4.0, \"release_ms\": 120", StringComparison.Ordinal));

        var report = Differ.Compare(one, other);

        Assert.True(report.IsEqual);
        Assert.Empty(report.Changes);
        Assert.StartsWith("Both are chains", Assert.Single(report.Notes), StringComparison.Ordinal);
    }

    [Fact]
    public void Chains_are_compared_without_raw_files_and_without_their_tempo_map()
    {
        var b = Write("b", BusySession.Body);
        var a = Elsewhere("a", BusySession.Body.Replace("\"ratio\": 4", "\"ratio\": 6", StringComparison.Ordinal));

        var report = Differ.Compare(a, b);

        var change = Assert.Single(report.Changes);
        Assert.Equal("bus b: compressor ratio 6 → 4", change.ToString());
        Assert.Equal(["02 B", "90 RoughPreBus", "91 RoughWithBus"], change.Reaches);
        Assert.Equal($"There is no {InSession("elsewhere/tempo.json")}, so it could not be told whether bars and tempi changed.", report.Notes[0]);
        Assert.StartsWith("Both are chains", report.Notes[1], StringComparison.Ordinal);
        Assert.Equal(2, report.Notes.Count);
    }

    [Fact]
    public void A_tempo_map_missing_on_both_sides_is_told_in_one_line()
    {
        var a = Elsewhere("a", BusySession.Body);
        var b = Elsewhere("b", BusySession.Body.Replace("\"to_bar\": 1", "\"to_bar\": 2", StringComparison.Ordinal));

        var report = Differ.Compare(a, b);

        Assert.Equal("bus b: b ride bars 1 to 1 +2 dB in 50 ms → bars 1 to 2 +2 dB in 50 ms", Assert.Single(report.Changes).ToString());
        Assert.Single(report.Notes, n => n.StartsWith("There is no ", StringComparison.Ordinal));
    }

    [Fact]
    public void A_tempo_map_that_only_one_side_names_is_a_change_even_where_it_is_missing()
    {
        var body = BusySession.Body.Replace("\"from_bar\": 1, \"to_bar\": 1", "\"from_s\": 0, \"to_s\": 1", StringComparison.Ordinal).Replace("\"click\": true", "\"click\": false", StringComparison.Ordinal);
        var a = Elsewhere("a", body);
        var b = InSession("b.chain.json");
        File.WriteAllText(b, Head.Replace(", \"tempo\": \"tempo.json\"", "", StringComparison.Ordinal) + body + " }");

        var report = Differ.Compare(b, a);

        Assert.Equal("tempo map: tempo.json added", Assert.Single(report.Changes).ToString());
        Assert.StartsWith("Both are chains", Assert.Single(report.Notes), StringComparison.Ordinal);
    }

    // Every sentence a chain can call for.
    [Theory]
    [InlineData("\"a\": -6", "\"a\": -8", "bus a: a level −6 → −8 dB (2 dB down)", "01 02 90 91")]
    [InlineData("\"a\": -6", "\"a\": -6, \"c\": -20", "bus a: c added at −20 dB", "01 02 90 91")]
    [InlineData("\"from\": { \"c\": -10 }", "\"from\": { \"b\": -3, \"c\": -10 }", "wet: b added at −3 dB", "03 90 91")]
    [InlineData("\"a\": -6", "\"a\": { \"level_db\": -6, \"delay_m\": 1.5 }", "bus a: a delay none → 1.5 m", "01 02 90 91")]
    [InlineData("\"pan_pct\": 30, ", "", "bus b: b pan 30 % → off", "02 90 91")]
    [InlineData("\"ride\": [ { \"from_bar\": 1, \"to_bar\": 1, \"db\": 2 } ]", "\"ride\": [ ]", "bus b: b ride bars 1 to 1 +2 dB in 50 ms left out", "02 90 91")]
    [InlineData("\"through\": [ { \"convolve\": { \"impulse\": \"room\" } } ]", "\"channels\": \"mono\", \"through\": [ { \"convolve\": { \"impulse\": \"room\" } } ]", "wet: channels auto → mono", "03 90 91")]
    [InlineData("{ \"convolve\": { \"impulse\": \"room\" } }", "{ \"gain\": { \"level_db\": 1 } }, { \"convolve\": { \"impulse\": \"room\" } }", "wet: gain added at the front", "03 90 91")]
    [InlineData("{ \"convolve\": { \"impulse\": \"room\" } }", "{ \"convolve\": { \"impulse\": \"room\" } }, { \"eq\": { \"bands\": [ { \"high_pass\": { \"freq_hz\": 40 } } ] } }", "wet: eq added after the convolution", "03 90 91")]
    [InlineData(", { \"saturate\": { \"drive_db\": 3 } }", "", "bus a: saturation left out", "01 02 90 91")]
    [InlineData("\"key\": \"bus a\"", "\"key\": \"a\"", "bus b: compressor listens to bus a → a", "02 90 91")]
    [InlineData("\"convolve\": { \"impulse\": \"room\" }", "\"convolve\": { \"impulse\": \"room\", \"gain\": \"peak\" }", "wet: convolution gain energy → peak", "03 90 91")]
    [InlineData("\"gate\": { \"look_ahead_ms\": 1,", "\"gate\": { \"key_high_pass_hz\": 200, \"look_ahead_ms\": 1,", "bus a: gate key high pass off → 200 Hz", "01 02 90 91")]
    [InlineData("\"bus\": \"bus a\"", "\"bus\": \"bus b\"", "01 A: bus bus a → bus b", "01 90 91")]
    [InlineData("{ \"number\": 2, \"name\": \"B\"", "{ \"number\": 4, \"name\": \"B\"", "04 B: print added", "04 90 91")]
    [InlineData("\"name\": \"A\"", "\"name\": \"Alpha\"", "01 Alpha: name A → Alpha", "01 90 91")]
    [InlineData("\"ir/room.wav\"", "\"ir/hall.wav\"", "room: file ir/room.wav → ir/hall.wav", "03 90 91")]
    [InlineData("\"c\": \"raw/c.wav\"", "\"c\": { \"file\": \"raw/c.wav\", \"polarity\": \"inverted\" }", "c: polarity normal → inverted", "03 90 91")]
    [InlineData("\"drum_bus\": { \"through\": [ { \"compress\": { \"ratio\": 2 } } ] }", "\"drum_bus\": { \"through\": [ { \"compress\": { \"ratio\": 2 } }, { \"compress\": { \"ratio\": 3 } } ] }", "drum bus: compressor 2 added after the compressor 1", "91")]
    [InlineData("\"click\": true", "\"click\": true, \"tail_s\": 1", "output: tail measured → 1 s", "01 02 03 90 91 92")]
    [InlineData("\"click\": true", "\"click\": true, \"dither\": \"tpdf\"", "output: dither by word length → triangular", "01 02 03 90 91 92")]
    [InlineData("\"click\": true", "\"click\": false", "click: left out", "92")]
    [InlineData("\"click\": true", "\"click\": true, \"rough\": false", "rough: left out", "90")]
    [InlineData("\"b\": \"raw/b.wav\", \"c\": \"raw/c.wav\"", "\"c\": \"raw/c.wav\", \"b\": \"raw/b.wav\"", "chain: tracks stand in another order", "01 02 03 90 91 92")]
    public void Each_change_has_its_words_and_the_prints_it_reaches(string from, string to, string words, string reaches)
    {
        Assert.Contains(from, BusySession.Body, StringComparison.Ordinal);
        var a = Write("a", BusySession.Body);
        var b = Write("b", BusySession.Body.Replace(from, to, StringComparison.Ordinal));

        var there = Differ.Compare(a, b);
        var back = Differ.Compare(b, a);

        var change = there.Changes.First(c => c.ToString() == words || there.Changes.All(o => o.ToString() != words));
        Assert.Equal(words, change.ToString());
        Assert.Equal(reaches.Split(' '), change.Reaches.Select(r => r[..2]));
        Assert.Equal(there.Changes.Count, back.Changes.Count);
    }

    [Theory]
    [InlineData("\"bus a\"", "\"tight\"", "tight: name bus a → tight", "01 02 90 91")]
    [InlineData("\"room\"", "\"small_hall\"", "small_hall: name room → small_hall", "03 90 91")]
    public void A_new_name_is_told_as_that_wherever_it_is_used(string from, string to, string words, string reaches)
    {
        var report = Differ.Compare(Write("a", BusySession.Body), Write("b", BusySession.Body.Replace(from, to, StringComparison.Ordinal)));

        var change = Assert.Single(report.Changes);
        Assert.Equal(words, change.ToString());
        Assert.Equal(reaches.Split(' '), change.Reaches.Select(r => r[..2]));
    }

    [Fact]
    public void A_renamed_bus_that_was_changed_too_is_told_with_its_changes()
    {
        var renamed = BusySession.Body.Replace("\"bus a\"", "\"tight\"", StringComparison.Ordinal).Replace("\"drive_db\": 3", "\"drive_db\": 5", StringComparison.Ordinal);

        var report = Differ.Compare(Write("a", BusySession.Body), Write("b", renamed));

        Assert.Equal(["tight: name bus a → tight", "tight: saturation drive 3 → 5 dB"], report.Changes.Select(c => c.ToString()));
    }

    [Fact]
    public void A_renamed_track_keeps_its_recording()
    {
        Print("before", BusySession.Body);
        Print("after", BusySession.Body.Replace("\"b\": ", "\"beater\": ", StringComparison.Ordinal));

        var whole = Differ.Compare(InSession("before"), InSession("after"));
        var print = Differ.Compare(InSession("before/02_B_Test_v1.wav"), InSession("after/02_B_Test_v1.wav"));

        Assert.Equal("beater: name b → beater", Assert.Single(whole.Changes).ToString());
        Assert.Equal("beater: name b → beater", Assert.Single(print.Changes).ToString());
    }

    [Fact]
    public void Of_two_buses_that_are_alike_none_is_taken_for_the_other()
    {
        string Body(string one, string other) => BusySession.Body.Replace("\"wet\": {", $"\"{one}\": {{ \"from\": {{ \"c\": -10 }} }}, \"{other}\": {{ \"from\": {{ \"c\": -10 }} }}, \"wet\": {{", StringComparison.Ordinal);

        var report = Differ.Compare(Write("a", Body("x", "y")), Write("b", Body("v", "w")));

        Assert.Equal(["v: bus added", "w: bus added", "x: bus left out", "y: bus left out"], report.Changes.Select(c => c.ToString()));
    }

    // The print without a ride in bars does not hold the map, the one with it does; the chain named it all along.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void The_first_ride_in_bars_does_not_add_a_tempo_map(bool isBack)
    {
        var without = BusySession.Body.Replace("\"ride\": [ { \"from_bar\": 1, \"to_bar\": 1, \"db\": 2 } ]", "\"ride\": [ ]", StringComparison.Ordinal);
        Print("before", isBack ? BusySession.Body : without);
        var chain = Write("now", isBack ? without : BusySession.Body);

        var report = Differ.Compare(InSession("before/02_B_Test_v1.wav"), chain);

        Assert.Equal($"bus b: b ride bars 1 to 1 +2 dB in 50 ms {(isBack ? "left out" : "added")}", Assert.Single(report.Changes).ToString());
    }

    [Fact]
    public void Bands_of_an_equaliser_are_named_by_where_they_work()
    {
        string Body(string bands) => BusySession.Body.Replace("{ \"convolve\": { \"impulse\": \"room\" } }", $"{{ \"eq\": {{ \"bands\": [ {bands} ] }} }}", StringComparison.Ordinal);

        var a = Write("a", Body("""{ "high_pass": { "freq_hz": 35 } }, { "bell": { "freq_hz": 420, "gain_db": -3 } }"""));
        var b = Write("b", Body("""{ "high_pass": { "freq_hz": 40 } }, { "low_shelf": { "freq_hz": 85, "gain_db": 4 } }, { "bell": { "freq_hz": 420, "gain_db": -5 } }"""));

        Assert.Equal(
            ["wet: eq high pass at 35 Hz freq 35 → 40 Hz", "wet: eq low shelf at 85 Hz added", "wet: eq bell at 420 Hz gain −3 → −5 dB (2 dB down)"],
            Differ.Compare(a, b).Changes.Select(c => c.ToString()));
    }

    [Fact]
    public void Tickets_tell_what_was_measured_and_which_raw_file_is_another()
    {
        Print("before", BusySession.Body);
        var samples = TestSession.ReadFile(Path.Combine(_session.Folder, "raw", "b.wav"));
        _session.Track("raw/b.wav", [.. samples.Select(s => s.Select(x => x / 2).ToArray())]);
        File.Copy(Path.Combine(_session.Folder, "raw", "a.wav"), Path.Combine(_session.Folder, "raw", "take.wav"));
        Print("after", BusySession.Body.Replace("raw/a.wav", "raw/take.wav", StringComparison.Ordinal));

        var report = Differ.Compare(InSession("before"), InSession("after/Test_v1.ticket.json"));

        Assert.Equal(["a: file raw/a.wav → raw/take.wav, the same sound", "b: the recording in raw/b.wav has changed"], report.Changes.Select(c => c.ToString()));
        Assert.Equal(["02 B", "90 RoughPreBus", "91 RoughWithBus"], report.Changes[1].Reaches);
        Assert.Equal(["02 B", "90 RoughPreBus", "91 RoughWithBus"], report.Measured.Where(m => !m.IsSameAudio).Select(m => m.Name));
        Assert.All(report.Measured, m => Assert.Equal(m.LengthA, m.LengthB));
        Assert.True(report.Measured.Single(m => m.Name == "02 B").A.PeakDbfs > report.Measured.Single(m => m.Name == "02 B").B.PeakDbfs);
        Assert.Empty(report.Notes);
    }

    [Fact]
    public void A_ticket_under_another_name_is_still_a_ticket()
    {
        _session.Print(BusySession.Chain(_session));
        var ticket = Path.Combine(_session.Prints, "Test_v1.ticket.json");
        File.Copy(ticket, InSession("record.json"));

        Assert.True(Differ.Compare(ticket, InSession("record.json")).IsEqual);
    }

    [Fact]
    public void A_print_a_folder_without_ticket_and_a_chain_compare_in_what_they_have()
    {
        Print("before", BusySession.Body);
        var print = InSession("before/03_Wet_Test_v1.wav");
        var chain = Write("now", BusySession.Body.Replace("\"c\": -10", "\"c\": -12", StringComparison.Ordinal).Replace("\"ratio\": 4", "\"ratio\": 6", StringComparison.Ordinal));

        var one = Differ.Compare(print, chain);
        File.Delete(InSession("before/Test_v1.ticket.json"));
        var folder = Differ.Compare(InSession("before"), chain);

        Assert.Equal(["wet: c level −10 → −12 dB (2 dB down)"], one.Changes.Select(c => c.ToString()));
        Assert.Contains(one.Notes, n => n.Contains("is a chain", StringComparison.Ordinal));
        Assert.Equal(["bus b: compressor ratio 4 → 6", "wet: c level −10 → −12 dB (2 dB down)"], folder.Changes.Select(c => c.ToString()).Order(StringComparer.Ordinal));
        Assert.Equal(["03 Wet", "90 RoughPreBus", "91 RoughWithBus"], folder.Changes.Single(c => c.Subject == "wet").Reaches);
    }

    [Fact]
    public void A_print_that_the_other_side_has_not_is_said()
    {
        Print("before", BusySession.Body);
        var chain = Write("now", BusySession.Body.Replace("{ \"number\": 3,", "{ \"number\": 7,", StringComparison.Ordinal));

        var report = Differ.Compare(InSession("before/03_Wet_Test_v1.wav"), chain);

        Assert.Equal("print 03: left out", Assert.Single(report.Changes).ToString());
    }

    [Fact]
    public void Other_samples_from_the_same_chain_and_files_are_a_difference()
    {
        Print("before", BusySession.Body);
        Print("after", BusySession.Body);
        var path = InSession("after/Test_v1.ticket.json");
        var ticket = Ticket.Read(path);
        File.WriteAllText(path, (ticket with { Prints = [.. ticket.Prints.Select(p => p.Number == 2 ? p with { AudioSha256 = new string('1', 64) } : p)] }).ToText());

        var report = Differ.Compare(InSession("before"), path);

        Assert.StartsWith("02 B: other samples came out", Assert.Single(report.Changes).ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Another_engine_length_and_trim_are_named()
    {
        Print("before", BusySession.Body);
        var path = InSession("before/Test_v1.ticket.json");
        var other = InSession("other.ticket.json");
        File.WriteAllText(other, (Ticket.Read(path) with { Engine = "9.9.9", Frames = 2 * TestSession.Rate, TrimDb = -1.5 }).ToText());

        Assert.Equal(
            [$"engine: version {EngineVersion.Text} → 9.9.9", "session: length 1.000 → 2.000 s, so every print changes", "session: all prints lowered together by 0 → 1.5 dB"],
            Differ.Compare(path, other).Changes.Select(c => c.ToString()));
    }

    [Fact]
    public void Another_revision_of_a_processor_is_named()
    {
        var a = Sample.Read(Sample.Through("[ { \"gate\": { \"revision\": 1 } } ]"));
        var b = Sample.Read(Sample.Through("[ { \"gate\": { \"revision\": 2 } } ]"));

        Assert.Contains("gate revision 1 → 2", ChainChanges.Of(Made.Of("a", a), Made.Of("b", b))[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_no_ticket_no_chain_and_no_print_is_refused_with_its_name()
    {
        Directory.CreateDirectory(InSession("empty"));
        var chain = Write("a", BusySession.Body);

        Assert.Contains("empty", Assert.Throws<UsageException>(() => Differ.Compare(chain, InSession("empty"))).Message, StringComparison.Ordinal);
        Assert.Contains("a.wav", Assert.Throws<UsageException>(() => Differ.Compare(InSession("raw/a.wav"), chain)).Message, StringComparison.Ordinal);
        Assert.Throws<UnreadableFileException>(() => Differ.Compare(chain, InSession("nowhere.chain.json")));
    }

    private string InSession(string path) => Path.Combine(_session.Folder, path);

    private string Write(string name, string body)
    {
        var path = InSession($"{name}.chain.json");
        File.WriteAllText(path, Head + body + " }");
        return path;
    }

    // In a folder without raw files and tempo map.
    private string Elsewhere(string name, string body)
    {
        Directory.CreateDirectory(InSession("elsewhere"));
        return Write($"elsewhere/{name}", body);
    }

    private void Print(string folder, string body) => _session.Print(_session.Chain(body, BusySession.Song), new PrintOptions { OutFolder = InSession(folder) });
}
