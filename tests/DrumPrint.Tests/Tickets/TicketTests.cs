using System.Globalization;
using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Chains.Describing;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using DrumPrint.Measuring;
using DrumPrint.Session;
using DrumPrint.Tests.Chains;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;
using Json.Schema;

namespace DrumPrint.Tests.Tickets;

public sealed class TicketTests : IDisposable
{
    private const string Rewrite = "DRUMPRINT_REWRITE_SCHEMA";
    private readonly TestSession _session = new();

    public TicketTests() => BusySession.Write(_session);

    private string TicketPath => Path.Combine(_session.Prints, "Test_v1.ticket.json");

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_ticket_read_again_is_the_ticket_written()
    {
        var report = _session.Print(BusySession.Chain(_session));

        var ticket = Ticket.Read(TicketPath);

        Assert.Equal(File.ReadAllText(TicketPath), ticket.ToText());
        Assert.Equal(ChainWriter.Canonical(report.Chain), ChainWriter.Canonical(ticket.Chain));
        Assert.Equal(report.Frames, ticket.Frames);
        Assert.Equal(report.Prints.Select(p => (p.FileName, p.AudioSha256, p.FileSha256)), ticket.Prints.Select(p => (p.FileName, p.AudioSha256, p.FileSha256)));
        Assert.Equal(["a", "b", "c"], ticket.Tracks.Select(t => t.Name));
        Assert.Equal(FileHash.Sha256(Path.Combine(_session.Folder, "raw", "a.wav")), ticket.Tracks[0].FileSha256);
        Assert.Equal(FileHash.Sha256(Path.Combine(_session.Folder, "ir", "room.wav")), Assert.Single(ticket.Impulses).FileSha256);
        Assert.NotNull(ticket.TempoSha256);
    }

    [Fact]
    public void A_print_that_stands_in_a_ticket_twice_is_refused()
    {
        _session.Print(BusySession.Chain(_session));
        var ticket = System.Text.Json.Nodes.JsonNode.Parse(File.ReadAllText(TicketPath))!;
        ticket["prints"]![1]!["number"] = 1;
        File.WriteAllText(TicketPath, ticket.ToJsonString());

        Assert.Contains("number 1 stands there twice", Assert.Throws<TicketException>(() => Ticket.Read(TicketPath)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Ticket_and_part_keep_to_their_schemas_and_hold_a_whole_chain()
    {
        _session.Print(BusySession.Chain(_session));

        using var ticket = JsonDocument.Parse(File.ReadAllText(TicketPath));
        Assert.True(JsonSchema.FromText(TicketSchema.Text()).Evaluate(ticket.RootElement).IsValid);
        Assert.True(JsonSchema.FromText(ChainSchema.Text()).Evaluate(ticket.RootElement.GetProperty("chain")).IsValid);
        Assert.True(JsonSchema.FromText(ChainSchema.TempoText()).Evaluate(ticket.RootElement.GetProperty("tempo")).IsValid);
        var schema = JsonSchema.FromText(TicketSchema.PartText());
        Assert.All(Directory.GetFiles(_session.Prints, "*.wav"), file =>
        {
            using var part = JsonDocument.Parse(PartBytes(file));
            Assert.True(schema.Evaluate(part.RootElement).IsValid);
        });
    }

    [Fact]
    public void The_schemas_in_the_repository_are_those_of_the_code()
    {
        Assert.Equal(TicketSchema.Text(), Committed("ticket.schema.json", TicketSchema.Text()));
        Assert.Equal(TicketSchema.PartText(), Committed("part.schema.json", TicketSchema.PartText()));
    }

    [Fact]
    public void A_print_carries_what_it_depends_on_and_nothing_else()
    {
        _session.Print(BusySession.Chain(_session));

        var b = PrintPart.Read(Path.Combine(_session.Prints, "02_B_Test_v1.wav"))!;
        Assert.Equal(["a", "b"], b.Tracks.Select(t => t.Name));
        Assert.Equal(["bus a", "bus b"], b.Chain.Buses.Select(x => x.Name));
        Assert.Empty(b.Impulses);
        Assert.NotNull(b.Chain.Song.Tempo);
        var wet = PrintPart.Read(Path.Combine(_session.Prints, "03_Wet_Test_v1.wav"))!;
        Assert.Equal(["c"], wet.Tracks.Select(t => t.Name));
        Assert.Equal(["room"], wet.Impulses.Select(i => i.Name));
        Assert.Null(wet.Chain.Song.Tempo);
        var click = PrintPart.Read(Path.Combine(_session.Prints, "92_Click_Test_v1.wav"))!;
        Assert.Empty(click.Tracks);
        var rough = PrintPart.Read(Path.Combine(_session.Prints, "91_RoughWithBus_Test_v1.wav"))!;
        Assert.Equal(3, rough.Chain.Prints.Count);
        Assert.Single(rough.Chain.DrumBus);
    }

    [Fact]
    public void A_print_names_its_loudness_and_history_as_the_standard_has_it()
    {
        var report = _session.Print(_session.Chain(BusySession.Body.Replace("\"click\": true", "\"tail_s\": 0.5", StringComparison.Ordinal), BusySession.Song));

        using var reader = AudioReader.Open(Path.Combine(_session.Prints, "02_B_Test_v1.wav"));
        var broadcast = reader.Info.Broadcast!;
        var print = report.Prints[1];
        Assert.Equal(print.IntegratedLufs, broadcast.LoudnessLufs!.Value, 0.0051);
        Assert.Equal(print.MaxMomentaryLufs, broadcast.MaxMomentaryLufs!.Value, 0.0051);
        Assert.Equal(FileMeter.Measure(reader.Info.Path).Sound.TruePeakDbtp!.Value, broadcast.MaxTruePeakDbtp!.Value, 0.0051);
        Assert.Equal($"A=PCM,F=48000,W=24,M=stereo,T=DrumPrint {EngineVersion.Text}\r\n", broadcast.CodingHistory);
    }

    [Fact]
    public void Three_formattings_of_one_chain_give_one_hash()
    {
        var text = ChainWriter.Canonical(BusySession.Chain(_session));

        var hashes = new[] { text, new Reformatted(1).Write(text), new Reformatted(2).Write(text) }.Select(json =>
        {
            _session.Print(ChainReader.Parse(json, Path.Combine(_session.Folder, "test.chain.json")));
            return Ticket.Read(TicketPath).ChainSha256;
        });

        Assert.Single(hashes.Distinct());
    }

    [Fact]
    public void Culture_folder_and_threads_never_change_a_byte_of_print_or_ticket()
    {
        using var elsewhere = new TestSession();
        BusySession.Write(elsewhere);
        _session.Print(BusySession.Chain(_session), new PrintOptions { Threads = 1 });
        var culture = CultureInfo.CurrentCulture;

        foreach (var foreign in Foreign())
        {
            try
            {
                CultureInfo.CurrentCulture = foreign;
                elsewhere.Print(BusySession.Chain(elsewhere), new PrintOptions { Threads = 3, BlockFrames = 777 });
            }
            finally
            {
                CultureInfo.CurrentCulture = culture;
            }

            Assert.Equal(_session.Files(), elsewhere.Files());
            Assert.All(_session.Files(), f => Assert.Equal(File.ReadAllBytes(Path.Combine(_session.Prints, f)), File.ReadAllBytes(Path.Combine(elsewhere.Prints, f))));
        }
    }

    [Fact]
    public void Neither_ticket_nor_print_names_a_folder_of_this_machine()
    {
        _session.Print(BusySession.Chain(_session));

        var name = Path.GetFileName(_session.Folder);
        Assert.DoesNotContain(name, File.ReadAllText(TicketPath), StringComparison.Ordinal);
        Assert.All(Directory.GetFiles(_session.Prints, "*.wav"), f => Assert.DoesNotContain(name, System.Text.Encoding.UTF8.GetString(PartBytes(f)), StringComparison.Ordinal));
    }

    [Fact]
    public void A_ticket_with_mistakes_is_answered_with_all_of_them()
    {
        _session.Print(BusySession.Chain(_session));
        var text = File.ReadAllText(TicketPath).Replace("\"trim_db\": 0", "\"trim_db\": \"none\", \"mood\": 1", StringComparison.Ordinal);
        File.WriteAllText(TicketPath, text);

        var refused = Assert.Throws<TicketException>(() => Ticket.Read(TicketPath));

        Assert.Contains("'trim_db' is ", refused.Message, StringComparison.Ordinal);
        Assert.Contains("'mood' is not a key of a ticket", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_ticket_that_needs_a_missing_revision_says_so()
    {
        _session.Print(BusySession.Chain(_session));
        var text = File.ReadAllText(TicketPath).Replace("\"revision\": 1,", "\"revision\": 7,", StringComparison.Ordinal).Replace($"\"engine\": \"{EngineVersion.Text}\"", "\"engine\": \"9.9.9\"", StringComparison.Ordinal);
        File.WriteAllText(TicketPath, text);

        var refused = Assert.Throws<TicketException>(() => Ticket.Read(TicketPath));

        Assert.Contains("revision it needs is missing", refused.Message, StringComparison.Ordinal);
        Assert.Contains("9.9.9", refused.Message, StringComparison.Ordinal);
    }

    // Where the system's cultures are not installed, one with signs and separators that would show anywhere.
    private static IEnumerable<CultureInfo> Foreign()
    {
        foreach (var name in new[] { "de-DE", "tr-TR" })
        {
            CultureInfo? known = null;
            try
            {
                known = CultureInfo.GetCultureInfo(name);
            }
            catch (CultureNotFoundException)
            {
                // The next one stands in for it.
            }

            if (known is not null)
            {
                yield return known;
            }
        }

        var odd = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        odd.NumberFormat.NumberDecimalSeparator = ",";
        odd.NumberFormat.NumberGroupSeparator = ".";
        odd.NumberFormat.NegativeSign = "~";
        yield return odd;
    }

    private static byte[] PartBytes(string file)
    {
        using var reader = AudioReader.Open(file);
        return reader.Chunks.Single(c => c.Id == PrintPart.ChunkId).Data.ToArray();
    }

    private static string Committed(string name, string current)
    {
        var path = Repository.File("src", "DrumPrint", "Tickets", name);
        if (Environment.GetEnvironmentVariable(Rewrite) == "1")
        {
            File.WriteAllText(path, current);
        }

        return File.ReadAllText(path);
    }
}
