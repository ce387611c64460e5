using DrumPrint.Demo;
using DrumPrint.Demo.Playing;
using DrumPrint.Tests.Demo;

namespace DrumPrint.Conformance.Checks;

/// <summary>The demo session's microphones, found again in its raw tracks.</summary>
internal static class SessionChecks
{
    public const string Note = "Lags by cross-correlation of the raw tracks as written, 48 kHz; expected are the straight lines of the kit's plan at 343.2 m/s (ISO 9613-1, 20 °C).";

    private static readonly Lazy<Dictionary<int, double[]>> Tracks = new(() =>
    {
        using var folder = new TemporaryFolder();
        var files = DemoSession.Write(folder.Path, full: false, progress: null, CancellationToken.None);
        return files.Tracks.Index().ToDictionary(t => t.Index + 1, t => SoundFiles.Read(t.Item)[0]);
    });

    public static IEnumerable<Check> All() =>
    [
        Pair("kick in to out", 1, 2, Stroke.Kick, 52.8, 0, 150),
        Pair("kick out to overhead left", 2, 11, Stroke.Kick, 147.7, 60, 80),
        Pair("kick out to overhead right", 2, 12, Stroke.Kick, 116.8, 60, 80),
        Pair("snare top to overhead left", 4, 11, Stroke.Backbeat, 127.1, 10, 110),
        Pair("snare top to overhead right", 4, 12, Stroke.Backbeat, 127.6, 10, 110),
        Pair("snare top to knee", 4, 14, Stroke.Backbeat, 24.5, 10, 110),
        Pair("snare top to near room left", 4, 15, Stroke.Backbeat, 326.6, 10, 90),
        Pair("snare top to near room right", 4, 16, Stroke.Backbeat, 332.7, 10, 90),
        Pair("snare top to far room left", 4, 17, Stroke.Backbeat, 661.6, 10, 70),
        Pair("snare top to far room right", 4, 18, Stroke.Backbeat, 661.6, 10, 70),
        Pair("snare top to hall", 4, 19, Stroke.Backbeat, 831.5, 10, 190),
        Pair("snare top to front", 4, 13, Stroke.Backbeat, 205.9, 10, 90),
        Pair("hat to snare top", 7, 4, Stroke.HatClosed, 31.6, 20, 100),
        Far("kick out and sub", 2, 3, Stroke.Kick, 7.7, 0, 12000, 40, 90),
        Far("snare top and bottom", 4, 6, Stroke.Backbeat, 17.4, 0, 600, 120, 600),
        Far("floor tom and under", 9, 10, Stroke.Floor, 40.1, 0, 2400, 60, 300),
    ];

    private static long[] Onsets(Stroke stroke) => [.. Score.Of(SongForm.Cut).Where(h => h.Stroke == stroke && h.LevelDb > -6 && h.Frame > 2000).Select(h => h.Frame)];

    private static Check Pair(string name, int first, int second, Stroke stroke, double frames, int from, int length) => new(
        "session",
        $"{name}: lag",
        "geometry",
        Bar.Near(frames, DemoTolerance.LagFrames, "frames", 1),
        () => Correlation.Of(Tracks.Value[first], Tracks.Value[second], Onsets(stroke), from, length, 1000, 9000, frames).Lag);

    private static Check Far(string name, int first, int second, Stroke stroke, double frames, int from, int length, double lowHz, double highHz) => new(
        "session",
        $"{name}, the far side being upside down: lag (0 if it were found upright)",
        "geometry",
        Bar.Near(frames, DemoTolerance.LowLagFrames, "frames", 1),
        () =>
        {
            var (lag, height) = Correlation.Of(Tracks.Value[first], Tracks.Value[second], [.. Onsets(stroke).Take(10)], from, length, lowHz, highHz, frames);
            return height < -0.8 ? lag : 0;
        });
}
