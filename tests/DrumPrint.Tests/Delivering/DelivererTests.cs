using System.Diagnostics;
using DrumPrint.Delivering;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Delivering;

public sealed class DelivererTests : IDisposable
{
    private readonly DeliverySession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_delivery_holds_prints_roughs_click_tempo_ticket_sheet_and_manifest()
    {
        var report = _session.Deliver();

        Assert.Equal(
            [
                "01_One_Test_v1.wav", "02_Two_Test_v1.wav", "03_Dry_Test_v1.wav", "15_Extra_Test_v1.wav", "90_RoughPreBus_Test_v1.wav", "91_RoughWithBus_Test_v1.wav", "92_Click_Test_v1.wav",
                "SHA256SUMS", "Test_v1.delivery.json", "Test_v1.ticket.json", "Test_v1_listen.html", "Test_v1_sheet.html", "Test_v1_sheet.pdf", "Test_v1_sheet.txt", "Test_v1_tempo.mid", "Test_v1_tempo.txt",
            ],
            Directory.GetFiles(_session.V1).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Equal([_session.V1], report.Written);
        Assert.True(DeliveryCheck.Check(_session.V1).IsWhole);
        Assert.All(Directory.GetFiles(_session.Session.Prints, "*.wav"), f => Assert.Equal(File.ReadAllBytes(f), File.ReadAllBytes(Path.Combine(_session.V1, Path.GetFileName(f)))));
    }

    [Fact]
    public void A_ticket_that_does_not_know_of_every_print_is_no_whole_set()
    {
        _session.Session.Print(_session.Chain());
        var path = Path.Combine(_session.Session.Prints, "Test_v1.ticket.json");
        var ticket = System.Text.Json.Nodes.JsonNode.Parse(File.ReadAllText(path))!;
        ticket["prints"]!.AsArray().RemoveAt(1);
        File.WriteAllText(path, ticket.ToJsonString());

        var refused = Assert.Throws<UsageException>(() => Deliverer.Deliver(_session.Chain(), new DeliveryOptions { To = _session.To }));

        Assert.Contains("asks for 02 Two", refused.Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_session.To));
    }

    [Fact]
    public void The_same_prints_delivered_elsewhere_are_the_same_bytes_zip_and_all()
    {
        var other = Path.Combine(_session.Session.Folder, "elsewhere");

        _session.Deliver(zips: true);
        _session.Deliver(to: other, zips: true);

        Assert.Equal(DeliverySession.Bytes(_session.To), DeliverySession.Bytes(other));
    }

    [Fact]
    public void Delivered_again_nothing_is_written()
    {
        _session.Deliver(zips: true);
        var before = DeliverySession.Bytes(_session.To);

        var report = _session.Deliver(zips: true);

        Assert.Empty(report.Written);
        Assert.Equal(2, report.Notes.Count(n => n.EndsWith("is there already, the same to the last byte.", StringComparison.Ordinal)));
        Assert.Equal(before, DeliverySession.Bytes(_session.To));
    }

    [Fact]
    public void Other_sound_under_the_same_version_is_refused_and_changes_nothing()
    {
        _session.TakeDelivered();
        var before = DeliverySession.Bytes(_session.To);

        var e = Assert.Throws<UsageException>(() => _session.Deliver(edit: b => b.Replace("\"a\": -9", "\"a\": -10", StringComparison.Ordinal)));

        Assert.Contains("is version 1 already, and 03_Dry_Test_v1.wav, 15_Extra_Test_v1.wav, 90_RoughPreBus_Test_v1.wav and 91_RoughWithBus_Test_v1.wav have other samples there. A delivery is never overwritten. Raise \"version\"", e.Message, StringComparison.Ordinal);
        Assert.Equal(before, DeliverySession.Bytes(_session.To));
    }

    [Fact]
    public void Other_notes_under_the_same_version_are_refused()
    {
        _session.TakeDelivered();

        var e = Assert.Throws<UsageException>(() => _session.Deliver(edit: b => b.Replace("Glue, no more.", "Glue.", StringComparison.Ordinal)));

        Assert.Contains("is version 1 already, and not the same: Test_v1.ticket.json, Test_v1_sheet.html", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_in_the_way_that_is_no_delivery_is_refused()
    {
        Directory.CreateDirectory(_session.V1);
        File.WriteAllText(Path.Combine(_session.V1, "mine.txt"), "mine");

        var e = Assert.Throws<UsageException>(() => _session.Deliver());

        Assert.Contains("is there already, and is no delivery", e.Message, StringComparison.Ordinal);
        Assert.Equal("mine", File.ReadAllText(Path.Combine(_session.V1, "mine.txt")));
    }

    [Fact]
    public void A_chain_that_changed_since_it_was_printed_is_refused()
    {
        _session.Session.Print(_session.Chain());

        var e = Assert.Throws<UsageException>(() => Deliverer.Deliver(_session.Chain(edit: b => b.Replace("\"a\": -9", "\"a\": -10", StringComparison.Ordinal)), new DeliveryOptions { To = _session.To }));

        Assert.Contains("the chain was changed after these prints were made (dry: a level −9 → −10 dB (1 dB down)). A delivery holds what the chain says. Print first: drumprint print ", e.Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_session.To));
    }

    [Fact]
    public void An_edited_print_is_refused_and_leaves_nothing_behind()
    {
        _session.Session.Print(_session.Chain());
        Kept.Flip(Path.Combine(_session.Session.Prints, "02_Two_Test_v1.wav"), 0.9);

        var e = Assert.Throws<UsageException>(() => Deliverer.Deliver(_session.Chain(), new DeliveryOptions { To = _session.To }));

        Assert.Contains("02_Two_Test_v1.wav is not the file that the ticket vouches for", e.Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_session.To));
    }

    [Fact]
    public void A_chain_that_was_never_printed_is_refused()
    {
        var e = Assert.Throws<UsageException>(() => Deliverer.Deliver(_session.Chain(), new DeliveryOptions { To = _session.To }));

        Assert.Contains("there is no ticket of version 1, so nothing vouches for these prints. Print first: drumprint print ", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_run_that_ends_or_fails_at_any_step_leaves_no_delivery_or_the_whole_one()
    {
        using var session = new DeliverySession(frames: 3000); // every step is tried, whatever the length
        static string Quick(string body) => body.Replace("{ \"compress\": { \"ratio\": 2, \"threshold_db\": -20 } }, ", "", StringComparison.Ordinal); // the sheet measures the drum bus each time
        var whole = Path.Combine(session.Session.Folder, "whole");
        session.Deliver(to: whole, edit: Quick);
        var expected = DeliverySession.Bytes(whole);
        Assert.Equal(16, expected.Count);
        var chain = session.Chain(edit: Quick);
        var states = new FolderStates();
        var steps = 0;
        for (; ; steps++)
        {
            var killed = Path.Combine(session.Session.Folder, $"killed{steps}");
            var failed = Path.Combine(session.Session.Folder, $"failed{steps}");
            var n = 0;
            if (Record.Exception(() => session.DeliverPrinted(chain, failed, steps: new QuickFiles(_ =>
            {
                if (n++ == steps)
                {
                    DeliverySession.Copy(failed, killed); // what a process that ends here leaves
                    throw new IOException("it fails");
                }
            }))) is null)
            {
                break;
            }

            Assert.True(!Directory.Exists(failed) || DeliverySession.Bytes(failed) is var left && (left.Count == 0 || left.SequenceEqual(expected)), $"step {steps}");
            Assert.True(!Directory.Exists(Path.Combine(killed, "Test_v1")) || DeliveryCheck.Check(Path.Combine(killed, "Test_v1")).IsWhole, $"step {steps}");
            if (states.IsNew(killed))
            {
                session.DeliverPrinted(chain, killed, steps: new QuickFiles());
                Assert.Equal(expected, DeliverySession.Bytes(killed));
                Assert.Equal(["Test_v1"], Directory.GetDirectories(killed).Select(Path.GetFileName));
            }
        }

        Assert.InRange(steps, 17, 60);
    }

    [Fact]
    public void Notes_stand_in_the_ticket_and_change_no_print()
    {
        _session.Session.Print(_session.Chain());
        var with = Hashes();
        var ticket = Ticket.Read(Path.Combine(_session.Session.Prints, "Test_v1.ticket.json"));

        _session.Session.Print(_session.Session.Chain(
            DeliverySession.Body.Replace(", \"keep\": \"must\", \"notes\": \"The body of <it>.\"", "", StringComparison.Ordinal).Replace(", \"notes\": \"Glue, no more.\"", "", StringComparison.Ordinal).Replace(", \"notes\": \"0.1 m from the head\"", "", StringComparison.Ordinal),
            "\"tempo\": \"tempo.json\""));

        Assert.Equal(with, Hashes());
        Assert.Equal("Glue, no more.", ticket.Chain.DrumBusNotes);
        Assert.Equal("The body of <it>.", ticket.Chain.Prints[0].Notes);

        IReadOnlyDictionary<string, string> Hashes() => DeliverySession.Bytes(_session.Session.Prints).Where(f => f.Key.EndsWith(".wav", StringComparison.Ordinal)).ToDictionary();
    }

    // Source: coreutils' own program, which reads what it writes.
    [FactWithTool("sha256sum")]
    public void Sha256sum_accepts_the_list_of_sums()
    {
        _session.TakeDelivered();

        Assert.Equal(0, Run("sha256sum", _session.V1, "--check", "--strict", "--quiet", "SHA256SUMS"));
        Kept.Flip(Path.Combine(_session.V1, "02_Two_Test_v1.wav"), 0.5);
        Assert.NotEqual(0, Run("sha256sum", _session.V1, "--check", "--status", "SHA256SUMS"));
    }

    [FactWithTool("unzip")]
    public void Unzip_accepts_the_zip_file_and_finds_the_folder_in_it()
    {
        _session.Deliver(zips: true);
        var there = Path.Combine(_session.Session.Folder, "there");
        Directory.CreateDirectory(there);

        Assert.Equal(0, Run("unzip", _session.To, "-tq", "Test_v1.zip"));
        Assert.Equal(0, Run("unzip", there, "-q", Path.Combine(_session.To, "Test_v1.zip")));
        Assert.Equal(DeliverySession.Bytes(_session.V1), DeliverySession.Bytes(Path.Combine(there, "Test_v1")));
    }

    private static int Run(string tool, string folder, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(tool, arguments) { WorkingDirectory = folder, RedirectStandardError = true, RedirectStandardOutput = true })!;
        process.WaitForExit();
        return process.ExitCode;
    }
}
