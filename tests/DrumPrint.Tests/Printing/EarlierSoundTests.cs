using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Diff;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Tests.Support;
using DrumPrint.Tickets;

namespace DrumPrint.Tests.Printing;

public sealed class EarlierSoundTests : IDisposable
{
    // Long enough for a reading of loudness.
    private const int Frames = 48000;

    private readonly TestSession _session = new();

    public EarlierSoundTests()
    {
        _session.Track("a.wav", Signals.Hits(Frames, 1));
        _session.Track("b.wav", Signals.Hits(Frames, 2));
    }

    public void Dispose() => _session.Dispose();

    [Theory]
    [InlineData(-4, "4.0 LU quieter")]
    [InlineData(0.1, "0.1 LU louder")]
    [InlineData(-0.05, null)]
    public void A_replaced_print_tells_how_much_louder_or_quieter_it_became(double db, string? change)
    {
        Print(aDb: -6);

        var report = Print(aDb: -6 + db);

        var earlier = report.Prints[0].Earlier!;
        Assert.Equal(change, earlier.Change);
        Assert.True(earlier.IsReplaced);
        Assert.True(report.Prints[1].Earlier!.Pair.IsSameAudio);
        Assert.Null(report.Prints[1].Earlier!.Change);
    }

    [Fact]
    public void A_first_print_has_nothing_to_stand_beside() => Assert.All(Print(aDb: 0).Prints, p => Assert.Null(p.Earlier));

    [Fact]
    public void What_was_measured_before_is_what_diff_says()
    {
        Print(aDb: -6);
        Directory.Move(_session.Prints, Path.Combine(_session.Folder, "first"));
        CopyFolder("first", "prints");

        var told = Print(aDb: -3).Prints[0].Earlier!;

        var diff = Differ.Compare(Path.Combine(_session.Folder, "first"), _session.Prints).Measured[0];
        Assert.Equal(diff.A.IntegratedLufs, told.Pair.A.IntegratedLufs);
        Assert.Equal(SoundWords.Of(diff), told.Change);
    }

    [Fact]
    public void A_new_version_stands_beside_the_nearest_one_before_it()
    {
        Print(aDb: -12, version: 1);
        Print(aDb: -6, version: 2);
        Print(aDb: 0, version: 9);

        var report = Print(aDb: -4, version: 3);

        var earlier = report.Prints[0].Earlier!;
        Assert.Equal((2, "2.0 LU louder", false), (earlier.Version, earlier.Change, earlier.IsReplaced));
    }

    [Fact]
    public void A_print_that_only_got_another_name_or_number_is_known_by_its_sound()
    {
        Print(aDb: -6);

        var renamed = _session.Print(Chain(-6, 1, aName: "Other"));

        Assert.Equal(["01_A_Test_v1.wav", "02_B_Test_v1.wav", "90_RoughPreBus_Test_v1.wav"], renamed.Prints.Select(p => p.SameSoundAs));
        Assert.Equal("01_Other_Test_v1.wav", Print(aDb: -6, version: 2).Prints[0].SameSoundAs);
        Assert.Null(_session.Print(Chain(-9, 1, aName: "Other")).Prints[0].SameSoundAs);
    }

    [Fact]
    public void Silence_is_not_taken_for_a_print_that_was_there()
    {
        _session.Track("a.wav", new double[Frames]);
        Print(aDb: 0);

        var report = Print(aDb: -6);

        Assert.Null(report.Prints[0].SameSoundAs);
        Assert.NotNull(report.Prints[1].SameSoundAs);
    }

    [Fact]
    public void Another_print_under_the_same_number_is_not_compared()
    {
        Print(aDb: -6);

        var report = _session.Print(Chain(-6, 1, aName: "Other"));

        Assert.Null(report.Prints[0].Earlier);
    }

    [Fact]
    public void Without_a_ticket_nothing_is_said_and_a_damaged_one_stops_no_print()
    {
        Print(aDb: -6);
        File.WriteAllText(Path.Combine(_session.Prints, "Test_v1.ticket.json"), "{ \"ticket\": 1");

        Assert.All(Print(aDb: -3).Prints, p => Assert.Null(p.Earlier));
    }

    [Theory]
    [InlineData(-20, -6, -15.4, -6, "4.6 LU louder")]
    [InlineData(-20, -6, -19, -2, "1.0 LU louder, peak 4.0 dB higher")]
    [InlineData(-20, -6, -18, -9, "2.0 LU louder, peak 3.0 dB lower")]
    [InlineData(-20, -6, -20.04, -7.5, "as loud as before, peak 1.5 dB lower")]
    [InlineData(-20, -6, -22, -8, "2.0 LU quieter")]
    [InlineData(-20, -6, -20.05, -6.04, null)]
    [InlineData(double.NegativeInfinity, -60, double.NegativeInfinity, -50, "peak 10.0 dB higher")]
    [InlineData(double.NegativeInfinity, double.NegativeInfinity, -20, -6, "silent before")]
    [InlineData(-20, -6, double.NegativeInfinity, double.NegativeInfinity, "silent now")]
    public void The_peak_is_told_where_it_moved_by_more_than_the_loudness(double lufsA, double peakA, double lufsB, double peakB, string? words) =>
        Assert.Equal(words, SoundWords.Of(new MeasuredPair("01 A", Recorded("a", lufsA, peakA), Recorded("b", lufsB, peakB), 1, 1)));

    [Fact]
    public void The_same_samples_have_not_changed_whatever_was_measured() =>
        Assert.Null(SoundWords.Of(new MeasuredPair("01 A", Recorded("a", -20, -6), Recorded("a", -10, -3), 1, 1)));

    private static RecordedPrint Recorded(string audio, double lufs, double peak) =>
        new(1, "A", PrintKind.Playing, "01_A_Test_v1.wav", 1, audio, "") { IntegratedLufs = lufs, PeakDbfs = peak };

    private void CopyFolder(string from, string to)
    {
        Directory.CreateDirectory(Path.Combine(_session.Folder, to));
        foreach (var file in Directory.GetFiles(Path.Combine(_session.Folder, from)))
        {
            File.Copy(file, Path.Combine(_session.Folder, to, Path.GetFileName(file)));
        }
    }

    private PrintReport Print(double aDb, int version = 1) => _session.Print(Chain(aDb, version));

    private Chain Chain(double aDb, int version, string aName = "A") => _session.Chain(
        string.Create(CultureInfo.InvariantCulture, $$"""
            "tracks": { "a": "a.wav", "b": "b.wav" },
            "buses": { "bus a": { "from": { "a": {{aDb}} } }, "bus b": { "from": { "b": -6 } } },
            "prints": [ { "number": 1, "name": "{{aName}}", "bus": "bus a" }, { "number": 2, "name": "B", "bus": "bus b" } ],
            "output": { "tail_s": 0 }
            """),
        string.Create(CultureInfo.InvariantCulture, $"\"version\": {version}"));
}
