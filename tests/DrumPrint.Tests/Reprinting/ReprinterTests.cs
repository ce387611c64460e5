using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Reprinting;
using DrumPrint.Session;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Reprinting;

public sealed class ReprinterTests : IDisposable
{
    private readonly TestSession _session = new();

    public ReprinterTests()
    {
        BusySession.Write(_session);
        _session.Print(BusySession.Chain(_session));
    }

    private string TicketPath => Path.Combine(_session.Prints, "Test_v1.ticket.json");

    public void Dispose() => _session.Dispose();

    [Theory]
    [InlineData("01_A_Test_v1.wav")]
    [InlineData("02_B_Test_v1.wav")]
    [InlineData("03_Wet_Test_v1.wav")]
    [InlineData("90_RoughPreBus_Test_v1.wav")]
    [InlineData("91_RoughWithBus_Test_v1.wav")]
    [InlineData("92_Click_Test_v1.wav")]
    public void One_print_and_the_raw_files_under_other_names_are_enough(string print)
    {
        using var left = new TestSession();
        Directory.CreateDirectory(Path.Combine(left.Folder, "takes", "old"));
        foreach (var (from, to) in new[] { ("raw/a.wav", "takes/one.wav"), ("raw/b.wav", "takes/old/two.WAV"), ("raw/c.wav", "takes/old/three.wav"), ("ir/room.wav", "takes/old/four.wav") })
        {
            File.Copy(InSession(from), Path.Combine(left.Folder, to));
        }

        var kept = Path.Combine(left.Folder, "inbox", "for the mixer.wav");
        Directory.CreateDirectory(Path.GetDirectoryName(kept)!);
        File.Copy(Path.Combine(_session.Prints, print), kept);

        var report = Reprinter.Reprint(kept, new ReprintOptions { RawFolders = [Path.Combine(left.Folder, "takes")] });

        var again = Assert.Single(report.Prints);
        Assert.Null(again.Cause);
        Assert.Equal(ReprintOutcome.Identical, again.Outcome);
    }

    // As versions before wrote them, whose sessions ended at the frame at which the last tail was over.
    [Fact]
    public void Prints_of_a_session_that_ends_between_two_seconds_are_made_again_to_their_own_length()
    {
        var folder = Path.Combine(_session.Folder, "old");
        var places = new Dictionary<string, string>(StringComparer.Ordinal);
        _session.Print(BusySession.Chain(_session), new PrintOptions { OutFolder = folder, Settled = new SettledRun(17003, 0, places) });
        var ticket = File.ReadAllText(TicketPath);

        var report = Reprinter.Reprint(folder, new ReprintOptions());
        var again = Reprinter.Reprint(Path.Combine(folder, "03_Wet_Test_v1.wav"), new ReprintOptions());

        Assert.Equal(6, report.Prints.Count);
        Assert.True(report.IsIdentical);
        Assert.True(again.IsIdentical);
        Assert.Equal(17003, TestSession.ReadFile(Path.Combine(folder, "03_Wet_Test_v1.wav"))[0].Length);
        Assert.Equal(ticket, File.ReadAllText(TicketPath));
    }

    [Fact]
    public void A_ticket_and_a_folder_make_every_print_again_and_keep_them_where_told()
    {
        var folder = Path.Combine(_session.Folder, "again");

        var byTicket = Reprinter.Reprint(TicketPath, new ReprintOptions { OutFolder = folder });
        var byFolder = Reprinter.Reprint(_session.Prints, new ReprintOptions());

        Assert.True(byTicket.IsIdentical);
        Assert.True(byFolder.IsIdentical);
        Assert.Equal(6, byTicket.Prints.Count);
        Assert.Equal(byTicket.Prints, byFolder.Prints);
        Assert.Empty(byTicket.Notes);
        var files = _session.Files("again");
        Assert.Equal(6, files.Length);
        Assert.All(files, f => Assert.Equal(File.ReadAllBytes(Path.Combine(_session.Prints, f)), File.ReadAllBytes(Path.Combine(folder, f))));
    }

    [Fact]
    public void A_folder_without_ticket_is_made_again_from_its_prints()
    {
        File.Delete(TicketPath);

        var report = Reprinter.Reprint(_session.Prints, new ReprintOptions());

        Assert.Equal(6, report.Prints.Count);
        Assert.True(report.IsIdentical);
    }

    [Fact]
    public void Prints_that_are_gone_are_held_against_the_hashes_of_their_ticket()
    {
        foreach (var file in Directory.GetFiles(_session.Prints, "*.wav"))
        {
            File.Delete(file);
        }

        Assert.True(Reprinter.Reprint(TicketPath, new ReprintOptions()).IsIdentical);
    }

    // The same samples make the same file, whichever version of the program makes them again.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_print_of_another_version_and_of_a_form_before_is_made_again_identical(bool ticket)
    {
        var folder = Path.Combine(_session.Folder, "old");
        var carried = Enumerable.Range(1, 92).ToDictionary(n => n, _ => new CarriedRecord(PartKeys.WithoutSeal, "0.0.99999", null));
        _session.Print(BusySession.Chain(_session), new PrintOptions { OutFolder = folder, Settled = new SettledRun(20000, 0, new Dictionary<string, string>()) { Carried = carried } });
        Assert.Equal("0.0.99999", PrintPart.Read(Path.Combine(folder, "01_A_Test_v1.wav"))!.Engine);
        if (ticket)
        {
            var old = Ticket.Read(TicketPath) with { Form = TicketKeys.WithoutSeals, Engine = "0.0.99999", Frames = 20000 };
            File.WriteAllText(Path.Combine(folder, "Test_v1.ticket.json"), (old with { Prints = [.. old.Prints.Select(p => p with { FileSha256 = FileHash.Sha256(Path.Combine(folder, p.FileName)), AudioSha256 = FileHash.AudioSha256(Path.Combine(folder, p.FileName)) })] }).ToText());
            Array.ForEach(Directory.GetFiles(folder, "*.wav"), File.Delete);
        }

        var report = Reprinter.Reprint(folder, new ReprintOptions());

        Assert.Equal(6, report.Prints.Count);
        Assert.True(report.IsIdentical);
    }

    [Fact]
    public void Other_samples_are_a_print_of_this_version()
    {
        var again = Path.Combine(_session.Folder, "again");
        Rewrite("raw/c.wav", c => c[0][100] = Math.BitIncrement(c[0][100]) + 0.1, null);
        var carried = new Dictionary<int, CarriedRecord> { [3] = new(PartKeys.WithoutSeal, "9.9.9", FileHash.AudioSha256(Path.Combine(_session.Prints, "03_Wet_Test_v1.wav"))) };

        _session.Print(BusySession.Chain(_session), new PrintOptions { OutFolder = again, Settled = new SettledRun(20000, 0, new Dictionary<string, string>()) { Carried = carried } });

        var part = PrintPart.Read(Path.Combine(again, "03_Wet_Test_v1.wav"))!;
        Assert.Equal(EngineVersion.Text, part.Engine);
        Assert.Equal(PartKeys.Format, part.Form);
    }

    [Fact]
    public void A_lowered_session_is_made_again_print_by_print()
    {
        using var loud = new TestSession();
        BusySession.Write(loud);
        var report = loud.Print(loud.Chain(BusySession.Body.Replace("\"name\": \"A\",", "\"name\": \"A\", \"level_db\": 14,", StringComparison.Ordinal).Replace("\"click\": true", "\"click\": true, \"over\": \"lower_together\"", StringComparison.Ordinal), BusySession.Song));
        File.Delete(Path.Combine(loud.Prints, "Test_v1.ticket.json"));

        Assert.True(report.TrimDb < 0);
        Assert.True(Reprinter.Reprint(loud.Prints, new ReprintOptions()).IsIdentical);
    }

    [Fact]
    public void Other_tags_in_a_raw_file_change_nothing_and_are_said()
    {
        Rewrite("raw/a.wav", _ => { }, new BroadcastExtension { Description = "Take 7, the good one", TimeReference = 48000 });

        var report = Reprinter.Reprint(TicketPath, new ReprintOptions());

        Assert.True(report.IsIdentical);
        Assert.Contains("'a'", Assert.Single(report.Notes), StringComparison.Ordinal);
        Assert.Contains("sound is the same", report.Notes[0], StringComparison.Ordinal);
    }

    [Fact]
    public void One_bit_of_a_raw_file_is_named_in_the_prints_it_reaches_and_in_no_other()
    {
        Rewrite("raw/c.wav", c => c[0][100] = Math.BitIncrement(c[0][100]), null);

        var report = Reprinter.Reprint(TicketPath, new ReprintOptions());

        Assert.Contains(report.Notes, n => n.Contains("'c'", StringComparison.Ordinal) && n.Contains("other sound", StringComparison.Ordinal));
        Assert.All(report.Prints.Where(p => p.FileName[..2] is "01" or "02" or "92"), p => Assert.Equal(ReprintOutcome.Identical, p.Outcome));
        Assert.All(report.Prints.Where(p => p.FileName[..2] is "03" or "90" or "91"), p =>
        {
            Assert.NotEqual(ReprintOutcome.Identical, p.Outcome);
            Assert.Contains("'c' (raw/c.wav)", p.Cause, StringComparison.Ordinal);
        });
    }

    [Fact]
    public void One_sample_of_an_impulse_is_named_with_place_and_level()
    {
        Rewrite("ir/room.wav", c => c[1][3000] += 0.01, null);

        var report = Reprinter.Reprint(Path.Combine(_session.Prints, "03_Wet_Test_v1.wav"), new ReprintOptions());

        var wet = Assert.Single(report.Prints);
        Assert.Equal(ReprintOutcome.Differs, wet.Outcome);
        Assert.Contains("'room' (ir/room.wav) has changed", wet.Cause, StringComparison.Ordinal);
        Assert.NotNull(wet.FirstDifference);
        Assert.InRange(wet.ResidualDbfs!.Value, -140, -10);
    }

    [Fact]
    public void One_parameter_of_a_ticket_is_named_with_both_values()
    {
        var text = File.ReadAllText(TicketPath);
        Assert.Contains("\"ratio\": 4,", text, StringComparison.Ordinal);
        File.WriteAllText(TicketPath, text.Replace("\"ratio\": 4,", "\"ratio\": 5,", StringComparison.Ordinal));

        var report = Reprinter.Reprint(_session.Prints, new ReprintOptions());

        var b = report.Prints.Single(p => p.FileName[..2] == "02");
        Assert.Equal(ReprintOutcome.Differs, b.Outcome);
        Assert.Contains("compress.ratio: 4 in the print, 5 in Test_v1.ticket.json", b.Cause, StringComparison.Ordinal);
        Assert.Equal(ReprintOutcome.Identical, report.Prints.Single(p => p.FileName[..2] == "03").Outcome);
    }

    [Fact]
    public void One_parameter_of_a_print_is_seen_by_its_hash_and_named_by_the_ticket()
    {
        var path = Path.Combine(_session.Prints, "02_B_Test_v1.wav");
        var bytes = File.ReadAllBytes(path);
        var at = bytes.AsSpan().IndexOf("\"ratio\":4,"u8);
        bytes[at + 8] = (byte)'5';
        File.WriteAllBytes(path, bytes);

        var withTicket = Assert.Single(Reprinter.Reprint(path, new ReprintOptions()).Prints);
        File.Delete(TicketPath);
        var alone = Assert.Single(Reprinter.Reprint(path, new ReprintOptions()).Prints);

        Assert.Equal(ReprintOutcome.Differs, withTicket.Outcome);
        Assert.Contains("compress.ratio: 4 in Test_v1.ticket.json, 5 in 02_B_Test_v1.wav", withTicket.Cause, StringComparison.Ordinal);
        Assert.Equal(ReprintOutcome.Differs, alone.Outcome);
        Assert.Contains("hash", alone.Cause, StringComparison.Ordinal);
    }

    [Fact]
    public void A_print_whose_samples_were_touched_differs_from_there_on()
    {
        var path = Path.Combine(_session.Prints, "01_A_Test_v1.wav");
        var bytes = File.ReadAllBytes(path);
        var data = bytes.AsSpan().IndexOf("data"u8) + 8;
        bytes[data + (3 * 1234)] ^= 1;
        File.WriteAllBytes(path, bytes);

        var print = Reprinter.Reprint(TicketPath, new ReprintOptions()).Prints[0];
        File.Delete(TicketPath);
        var alone = Assert.Single(Reprinter.Reprint(path, new ReprintOptions()).Prints);

        Assert.Contains("no longer have the hash that it carries", alone.Cause, StringComparison.Ordinal);
        Assert.Equal(ReprintOutcome.Differs, print.Outcome);
        Assert.Equal(1234, print.FirstDifference);
        Assert.Equal(1234.0 / TestSession.Rate, print.FirstDifferenceS);
        Assert.Equal(20 * Math.Log10(1.0 / (1 << 23)), print.ResidualDbfs!.Value, 0.01);
        Assert.Contains("what its ticket says", print.Cause, StringComparison.Ordinal);
    }

    [Fact]
    public void Missing_raw_files_are_all_named_with_hash_and_old_path()
    {
        var hashes = Ticket.Read(TicketPath).Tracks;
        File.Delete(InSession("raw/a.wav"));
        File.Delete(InSession("raw/b.wav"));

        var refused = Assert.Throws<InputException>(() => Reprinter.Reprint(TicketPath, new ReprintOptions()));

        Assert.Contains(refused.Problems, p => p.Contains("raw/a.wav", StringComparison.Ordinal) && p.Contains(hashes[0].AudioSha256[..8], StringComparison.Ordinal));
        Assert.Contains(refused.Problems, p => p.Contains("raw/b.wav", StringComparison.Ordinal));
    }

    [Fact]
    public void Raw_files_taken_from_another_folder_are_one_sentence_that_names_those_with_another_name()
    {
        using var left = new TestSession();
        var folder = Path.Combine(left.Folder, "raw2");
        Directory.Move(InSession("raw"), folder);
        var plain = Reprinter.Reprint(TicketPath, new ReprintOptions { RawFolders = [left.Folder] });
        File.Move(Path.Combine(folder, "b.wav"), Path.Combine(folder, "take 4.wav"));
        File.Move(InSession("ir/room.wav"), Path.Combine(folder, "room.wav"));

        var renamed = Reprinter.Reprint(TicketPath, new ReprintOptions { RawFolders = [left.Folder] });

        Assert.True(plain.IsIdentical && renamed.IsIdentical);
        Assert.Equal([$"3 raw files taken from {folder}."], plain.Notes);
        Assert.Equal([$"3 raw files and 1 impulse taken from {folder}; 1 of them under another name: 'b' is now take 4.wav, was b.wav."], renamed.Notes);
    }

    [Fact]
    public void Other_tags_in_many_raw_files_are_one_sentence()
    {
        Rewrite("raw/a.wav", _ => { }, new BroadcastExtension { Description = "Take 7", TimeReference = 48000 });
        Rewrite("raw/b.wav", _ => { }, new BroadcastExtension { Description = "Take 7", TimeReference = 48000 });

        var report = Reprinter.Reprint(TicketPath, new ReprintOptions());

        Assert.True(report.IsIdentical);
        Assert.Equal(["2 raw files: the sound is the same, other data in the files has changed ('a', 'b')."], report.Notes);
    }

    [Fact]
    public void A_raw_file_taken_from_another_folder_is_named_even_under_its_old_path()
    {
        using var left = new TestSession();
        Directory.CreateDirectory(Path.Combine(left.Folder, "raw"));
        var moved = Path.Combine(left.Folder, "raw", "a.wav");
        File.Move(InSession("raw/a.wav"), moved);

        var report = Reprinter.Reprint(TicketPath, new ReprintOptions { RawFolders = [left.Folder] });

        Assert.True(report.IsIdentical);
        Assert.Contains(moved, Assert.Single(report.Notes), StringComparison.Ordinal);
    }

    [Fact]
    public void A_raw_file_that_was_renamed_and_changed_is_offered_as_the_one_that_was_meant()
    {
        Rewrite("raw/a.wav", c => c[0][100] += 0.25, null);
        File.Move(InSession("raw/a.wav"), InSession("raw/take 7.wav"));
        File.Copy(InSession("raw/b.wav"), InSession("raw/take 8.wav"));

        var refused = Assert.Throws<InputException>(() => Reprinter.Reprint(TicketPath, new ReprintOptions()));

        Assert.Contains(refused.Problems, p => p.Contains("'a' is missing", StringComparison.Ordinal) && p.Contains("take 7.wav", StringComparison.Ordinal) && p.Contains("its sound was changed", StringComparison.Ordinal));
        Assert.DoesNotContain(refused.Problems, p => p.Contains("take 8.wav", StringComparison.Ordinal)); // the other track's take, under another name
    }

    [Fact]
    public void A_sound_file_that_is_no_print_and_the_folder_of_the_prints_are_refused()
    {
        Assert.Throws<UsageException>(() => Reprinter.Reprint(InSession("raw/a.wav"), new ReprintOptions()));
        Assert.Throws<UsageException>(() => Reprinter.Reprint(TicketPath, new ReprintOptions { OutFolder = _session.Prints }));
    }

    private string InSession(string file) => Path.Combine(_session.Folder, file);

    private void Rewrite(string file, Action<double[][]> change, BroadcastExtension? broadcast)
    {
        var samples = TestSession.ReadFile(InSession(file));
        change(samples);
        using var writer = WaveWriter.Create(InSession(file), new AudioFormat(TestSession.Rate, samples.Length), SampleEncoding.Float64, broadcast, samples[0].Length);
        writer.Write(new AudioBlock(samples, 0, samples[0].Length));
        writer.Finish(samples[0].Length);
        writer.Publish();
    }
}
