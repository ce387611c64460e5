using DrumPrint.Audio;
using DrumPrint.Reprinting;
using DrumPrint.Session;
using DrumPrint.Store;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Versions;

/// <summary>What earlier versions left still works.</summary>
public sealed class EarlierVersionTests
{
    public static TheoryData<string> Versions => ["7504beb"];

    public static TheoryData<string, string> Prints
    {
        get
        {
            var prints = new TheoryData<string, string>();
            foreach (var version in Versions)
            {
                foreach (var name in new[] { "01_Kick", "02_Snare", "03_Room", "04_Overheads", "90_RoughPreBus", "91_RoughWithBus", "92_Click" })
                {
                    prints.Add(version, $"{name}_PennyLantern_v1.wav");
                }
            }

            return prints;
        }
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void The_chain_still_reads_and_prints_the_same_samples(string version)
    {
        using var session = new EarlierSession(version);

        var report = session.Print(new PrintOptions { OutFolder = Path.Combine(session.Folder, "now") });

        Assert.Empty(report.Findings);
        Assert.Equal(7, report.Prints.Count);
        Assert.Equal(report.Prints.Select(p => FileHash.AudioSha256(Path.Combine(session.Prints, p.FileName))), report.Prints.Select(p => p.AudioSha256));
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void The_ticket_is_still_read_and_says_what_the_prints_are(string version)
    {
        using var session = new EarlierSession(version);

        var ticket = Ticket.Read(session.TicketPath);

        Assert.Equal(7, ticket.Prints.Count);
        Assert.All(ticket.Prints, p => Assert.Equal(FileHash.Sha256(Path.Combine(session.Prints, p.FileName)), p.FileSha256));
    }

    [Theory]
    [MemberData(nameof(Prints))]
    public void A_print_alone_is_made_again_identical(string version, string print)
    {
        using var session = new EarlierSession(version);
        File.Delete(session.TicketPath);

        var again = Assert.Single(Reprinter.Reprint(Path.Combine(session.Prints, print), new ReprintOptions()).Prints);

        Assert.Null(again.Cause);
        Assert.Equal(ReprintOutcome.Identical, again.Outcome);
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void All_prints_of_the_ticket_are_made_again_identical(string version)
    {
        using var session = new EarlierSession(version);
        var again = Path.Combine(session.Folder, "again");

        var report = Reprinter.Reprint(session.TicketPath, new ReprintOptions { OutFolder = again });

        Assert.True(report.IsIdentical);
        Assert.Equal(7, report.Prints.Count);
        Assert.All(report.Prints, p => Assert.Equal(File.ReadAllBytes(Path.Combine(session.Prints, p.FileName)), File.ReadAllBytes(Path.Combine(again, p.FileName))));
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void The_ticket_alone_without_its_prints_is_made_again_identical(string version)
    {
        using var session = new EarlierSession(version);
        Array.ForEach(Directory.GetFiles(session.Prints, "*.wav"), File.Delete);

        Assert.True(Reprinter.Reprint(session.TicketPath, new ReprintOptions()).IsIdentical);
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void Printing_over_what_a_version_left_loses_nothing_and_complains_of_nothing(string version)
    {
        using var session = new EarlierSession(version);

        var report = session.Print(new PrintOptions { Store = session.Store });

        Assert.Empty(report.Losses);
        Assert.Contains("was not made by your DrumPrint on this machine, or by an earlier version", Assert.Single(report.StoreNotes), StringComparison.Ordinal);
        Assert.False(Directory.Exists(Path.Combine(session.Prints, "changed")));
        Assert.Equal(report.Prints.Select(p => p.AudioSha256), report.Prints.Select(p => FileHash.AudioSha256(Path.Combine(session.Prints, p.FileName))));
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void The_store_is_set_aside_whole_and_a_new_one_begun(string version)
    {
        using var session = new EarlierSession(version);
        var before = Files(session.Store.Folder);

        session.Print(new PrintOptions { Store = session.Store });

        Assert.Equal(before, Files(Path.Combine(session.Folder, "drumprint-store-set-aside")));
        Assert.NotEmpty(StoreContents.List(session.Store.Folder));
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void Without_ticket_and_store_prints_that_say_nothing_of_their_samples_are_kept(string version)
    {
        using var session = new EarlierSession(version);
        File.Delete(session.TicketPath);
        Directory.Delete(session.Store.Folder, recursive: true);

        var report = session.Print();

        Assert.StartsWith("Printed by an earlier version, which took down nothing by which to tell whether they were changed since: 01_Kick,", Assert.Single(report.Losses), StringComparison.Ordinal);
        Assert.Equal(7, Directory.GetFiles(Path.Combine(session.Prints, "changed")).Length);
    }

    // Its store proves nothing any more: anybody could have written it.
    [Theory]
    [MemberData(nameof(Versions))]
    public void Without_a_ticket_the_prints_are_kept(string version)
    {
        using var session = new EarlierSession(version);
        File.Delete(session.TicketPath);

        Assert.Single(session.Print(new PrintOptions { Store = session.Store }).Losses);
        Assert.Equal(7, Directory.GetFiles(Path.Combine(session.Prints, "changed")).Length);
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void An_edited_print_is_kept_whatever_vouches_for_the_others(string version)
    {
        using var session = new EarlierSession(version);
        Kept.Flip(Path.Combine(session.Prints, "02_Snare_PennyLantern_v1.wav"), 0.9);

        var report = session.Print(new PrintOptions { Store = session.Store });

        Assert.StartsWith("Changed or damaged after printing: 02_Snare.", Assert.Single(report.Losses), StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void An_excerpt_with_the_same_samples_is_replaced_and_an_edited_one_kept(string version)
    {
        using var session = new EarlierSession(version);
        Kept.Flip(Path.Combine(session.Folder, "excerpt", "03_Room_PennyLantern_v1_0m00s100-0m00s500.wav"), 0.9);

        var report = session.Print(new PrintOptions { FromS = 0.1, ToS = 0.5 });

        Assert.Equal(["03_Room_PennyLantern_v1_0m00s100-0m00s500.wav"], Directory.GetFiles(Path.Combine(report.OutFolder, "changed")).Select(Path.GetFileName));
        Assert.Single(report.Losses);
    }

    private static string[] Files(string folder) => [.. Directory.GetFiles(folder, "*", SearchOption.AllDirectories).Select(f => $"{Path.GetRelativePath(folder, f)} {FileHash.Sha256(f)}").Order(StringComparer.Ordinal)];
}
