using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Printing.Folder;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

public sealed class ReturnToVersionTests : IDisposable
{
    private readonly TestSession _session = new();

    public ReturnToVersionTests()
    {
        _session.Track("a.wav", Signals.Hits(4800, 1));
        _session.Track("b.wav", Signals.Hits(4800, 2));
        _session.Print(Chain(aDb: 0, version: 1));
        _session.Print(Chain(aDb: -3, version: 2));
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void Going_back_with_other_settings_says_what_will_be_replaced_what_differs_and_how_to_keep_it()
    {
        var warning = Warning(Chain(aDb: -3, version: 1));

        Assert.Equal(
            string.Join(
                Environment.NewLine,
                $"This chain is version 1 again, and {_session.Prints} holds version 2 already. Version 1 was printed with other settings, and what it made is about to leave its place: 01_A and 90_RoughPreBus.",
                "What differs from then to now:",
                "  bus a: a level 0 → −3 dB (3 dB down)",
                $"These files will be kept in {Path.Combine(_session.Prints, "changed")}. To have both under their own names, set song.version to 3."),
            warning);
    }

    [Fact]
    public void Going_back_with_the_settings_of_then_replaces_nothing_and_needs_no_word() => Assert.Null(Warning(Chain(aDb: 0, version: 1)));

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void The_newest_version_may_be_revised_without_a_warning(int version) => Assert.Null(Warning(Chain(aDb: -9, version)));

    [Fact]
    public void What_a_version_made_is_kept_when_the_chain_goes_back_to_it()
    {
        var before = File.ReadAllBytes(Path.Combine(_session.Prints, "01_A_Test_v1.wav"));

        var report = _session.Print(Chain(aDb: -3, version: 1));

        Assert.Equal(before, File.ReadAllBytes(Path.Combine(_session.Prints, "changed", "01_A_Test_v1.wav")));
        Assert.Contains(report.Losses, l => l.StartsWith("Printed with other settings before a newer version was: 01_A and 90_RoughPreBus.", StringComparison.Ordinal));
        Assert.DoesNotContain(report.Losses, l => l.StartsWith("Replaced", StringComparison.Ordinal));
    }

    [Fact]
    public void Prints_that_stay_are_not_named()
    {
        Assert.Null(Warning(Chain(aDb: -3, version: 1), new PrintOptions { Only = ["B"] }));
        Assert.Contains("its place: 01_A.", Warning(Chain(aDb: -3, version: 1), new PrintOptions { Only = ["A", "B"] }), StringComparison.Ordinal);
    }

    [Fact]
    public void Another_name_alone_is_no_loss()
    {
        var chain = Chain(aDb: 0, version: 1);

        Assert.Null(Warning(chain with { Prints = [chain.Prints[0] with { Name = "Other" }, chain.Prints[1]], Song = chain.Song with { Title = "Other" } }));
    }

    [Fact]
    public void An_excerpt_and_another_folder_replace_nothing()
    {
        Assert.Null(Warning(Chain(aDb: -3, version: 1), new PrintOptions { FromS = 0.01 }));
        Assert.Null(Warning(Chain(aDb: -3, version: 1), new PrintOptions { ToS = 0.05 }));
        Assert.Null(Warning(Chain(aDb: -3, version: 1), new PrintOptions { OutFolder = Path.Combine(_session.Folder, "elsewhere") }));
    }

    [Fact]
    public void Newer_prints_that_have_lost_their_ticket_count_too()
    {
        File.Delete(Path.Combine(_session.Prints, "Test_v2.ticket.json"));

        Assert.NotNull(Warning(Chain(aDb: -3, version: 1)));
    }

    [Fact]
    public void Many_differences_are_told_in_part()
    {
        var chain = Chain(aDb: -3, version: 1);
        var stirred = chain with { Tracks = [.. chain.Tracks.Select(t => t with { LevelDb = -1, IsInverted = true, Convert = !t.Convert })] };

        Assert.Contains("  and 2 more", Warning(stirred), StringComparison.Ordinal);
    }

    private static string? Warning(Chain chain, PrintOptions? options = null) => ReturnToVersion.Of(chain, options ?? new PrintOptions())?.Warning;

    private Chain Chain(double aDb, int version) => _session.Chain(
        string.Create(CultureInfo.InvariantCulture, $$"""
            "tracks": { "a": "a.wav", "b": "b.wav" },
            "buses": { "bus a": { "from": { "a": {{aDb}} } }, "bus b": { "from": { "b": -6 } } },
            "prints": [ { "number": 1, "name": "A", "bus": "bus a" }, { "number": 2, "name": "B", "bus": "bus b" } ],
            "output": { "tail_s": 0 }
            """),
        string.Create(CultureInfo.InvariantCulture, $"\"version\": {version}"));
}
