using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Reprinting;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Files;

/// <summary>Paths as three systems have them.</summary>
public sealed class LongPathTests : IDisposable
{
    // Own bar: well past the 260 characters that old interfaces of Windows end at.
    private const int Long = 400;

    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_session_far_down_prints_and_prints_again()
    {
        var down = string.Concat(Enumerable.Repeat("Größe und Länge eines Ordners, Élan/", 12));
        var chain = Chain(down, "raw/kick.wav");

        var report = _session.Print(chain);

        Assert.True(report.OutFolder.Length > Long);
        Assert.True(Reprinter.Reprint(report.OutFolder, new ReprintOptions()).IsIdentical);
    }

    [Theory]
    [InlineData("raw\\kick.wav", "raw/kick.wav")]
    [InlineData("C:\\Takes\\kick.wav", "C:/Takes/kick.wav")]
    [InlineData("\\\\server\\share\\kick.wav", "//server/share/kick.wav")]
    public void A_backslash_in_a_chain_is_answered_with_the_path_as_it_is_written(string file, string written)
    {
        var refused = Assert.Throws<ChainException>(() => Chain("", file));

        Assert.Contains($"Between folders write / on every system: {written}.", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("//server/share/kick.wav")]
    [InlineData("//?/C:/Takes/kick.wav")]
    [InlineData("//./PhysicalDrive0")]
    public void A_share_or_a_device_is_outside_and_is_not_looked_at(string file)
    {
        var refused = Assert.Throws<InputException>(() => _session.Print(Chain("", file)));

        Assert.Contains("--allow-outside", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_drive_is_outside_on_Windows_and_a_folder_that_is_not_there_elsewhere()
    {
        var refused = Assert.Throws<InputException>(() => _session.Print(Chain("", "Q:/Takes/kick.wav")));

        Assert.Contains(OperatingSystem.IsWindows() ? "--allow-outside" : "Q:", refused.Message, StringComparison.Ordinal);
    }

    private Chain Chain(string down, string file)
    {
        if (down.Length > 0)
        {
            _session.Track(down + file, Signals.Hits(TestSession.Rate / 10, 1));
        }

        return ChainReader.Parse($$"""
            { "chain": 1, "song": { "title": "Far", "code": "Far", "rate_hz": 48000 },
              "tracks": { "kick": {{System.Text.Json.JsonSerializer.Serialize(file)}} },
              "buses": { "kit": { "from": { "kick": 0 } } }, "prints": [ { "number": 1, "name": "Kick", "bus": "kit" } ] }
            """, Path.Combine(_session.Folder, down, "far.chain.json"));
    }
}
