using System.Globalization;
using System.Text;
using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Dsp.Resampling;
using DrumPrint.Files;

namespace DrumPrint.Comparing;

/// <summary>Writes a comparison as one HTML file that holds everything: figures, pictures, sound and blind test.</summary>
public static class ComparisonPage
{
    private const int Steps = 1 << 23;
    private const int HighestRate = 48000;

    // Own bar: what a browser opens from a disk without a wait, and a mail server still takes.
    private const long MostBytes = 48_000_000;

    /// <summary>Writes the page.</summary>
    /// <exception cref="AudioFileException">The file cannot be written.</exception>
    public static void Write(string path, ComparisonReport report) => Write(path, report, FileSteps.Plain);

    /// <summary>The same, written by given steps.</summary>
    internal static void Write(string path, ComparisonReport report, FileSteps steps)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(report);
        var prints = Prints(report).Select(c => new PagePrint(c, Listening(c.A.Sound!), Listening(c.B.Sound!))).ToList();
        var first = prints[0].Comparison;
        PageText.Write(path, PageText.Part("page.html"), new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["title"] = PageText.Html(report.Song.Length > 0 ? $"{report.Song}: {first.A.Name} against {first.B.Name}" : $"{first.A.Name} against {first.B.Name}"),
            ["style"] = PageText.Part("page.css"),
            ["over"] = PageText.Html(Over(report, first)),
            ["a"] = PageText.Html(first.A.Name),
            ["b"] = PageText.Html(first.B.Name),
            ["changed"] = report.Changed.Count == 0 ? "" : $"<p class=\"changed\" id=\"changed\">Changed: {PageText.Html(Changed(report.Changed))}</p>",
            ["alignment"] = AlignmentWords.Html(report),
            ["place"] = PageText.Html($"{Capital(first.PlaceWords)}."),
            ["choose-hidden"] = Hidden(prints.Count < 2),
            ["prints"] = string.Concat(prints.Select(p => $"<option>{PageText.Html(p.Comparison.Title)}</option>")),
            ["verdict"] = PageText.Html(ComparisonVerdict.Line(first)),
            ["measured"] = PageText.Html(ComparisonVerdict.Rest(first)),
            ["measured-hidden"] = Hidden(ComparisonVerdict.Rest(first).Length == 0),
            ["numbers-table"] = PageTables.Numbers(first),
            ["thirds-table"] = PageTables.Thirds(first),
            ["song-hidden"] = Hidden(report.Overview is null),
            ["sections-hidden"] = Hidden(report.Overview is not { Sections.Count: > 0 }),
            ["sections-table"] = PageTables.Sections(report.Overview),
            ["others-hidden"] = Hidden(report.Others.Count == 0),
            ["others-table"] = PageTables.Others(report),
            ["recipe-hidden"] = Hidden(report.Recipe.Count == 0),
            ["recipe"] = PageTables.List(report.Recipe),
            ["notes"] = PageTables.List([.. report.Notes, .. LeftOff(report, prints)]),
            ["engine"] = EngineVersion.Text,
            ["data"] = Data(report, prints),
            ["audio"] = string.Join('\n', prints.Index().SelectMany(p => new[] { Script(p.Index, "a", p.Item.A), Script(p.Index, "b", p.Item.B) })),
            ["script"] = PageText.Script(
                "text.js", "clock.js", "binomial.js", "sound.js", "audition.js", "player.js", "desk.js", "blind.js", "waveform.js", "pictures.js", "spectrogram.js", "keys.js", "main.js"),
        });
    }

    // The one that was changed, then the one in front, then the others that differ, as far as a page may grow.
    private static List<Comparison> Prints(ComparisonReport report)
    {
        var prints = new List<Comparison>();
        var bytes = 0L;
        foreach (var comparison in new[] { report.Opening, report.Main }.Concat(report.Others).Where(c => c is { A.Sound: not null, B.Sound: not null }).Distinct(ReferenceEqualityComparer.Instance).Cast<Comparison>())
        {
            bytes += 4L * comparison.Passage.Frames * (comparison.A.Channels + comparison.B.Channels);
            if (prints.Count < 2 || bytes <= MostBytes)
            {
                prints.Add(comparison);
            }
        }

        return prints;
    }

    private static IEnumerable<string> LeftOff(ComparisonReport report, List<PagePrint> prints)
    {
        var left = report.Others.Where(o => o.A.Sound is not null && !prints.Any(p => ReferenceEquals(p.Comparison, o))).Select(o => o.Title).ToList();
        return left.Count == 0 ? [] : [$"To keep the page small it holds no sound of {string.Join(", ", left)}; for one of them, add --print."];
    }

    private static string Over(ComparisonReport report, Comparison comparison) =>
        string.Join(" · ", new[] { report.Song, comparison.Title }.Where(t => t.Length > 0).DefaultIfEmpty("Two sound files"));

    private static string Changed(IReadOnlyList<string> changed)
    {
        const int told = 3;
        return string.Join("; ", changed.Take(told)) + (changed.Count > told ? $"; and {changed.Count - told} more below" : "");
    }

    private static string Hidden(bool isHidden) => isHidden ? "hidden" : "";

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    // Figures are measured at the session's rate; ears are served by 48 kHz.
    internal static Sound Listening(Sound sound)
    {
        var rate = sound.RateHz;
        while (rate > HighestRate && rate % 2 == 0)
        {
            rate /= 2;
        }

        return rate == sound.RateHz ? sound : new Sound(rate, Array.ConvertAll(sound.Channels, c => RateConverter.Convert(c, sound.RateHz, rate)));
    }

    // A rendered side may go above full scale.
    internal static double Scale(Sound sound)
    {
        var peak = sound.Channels.SelectMany(c => c).Max(Math.Abs);
        return peak <= (Steps - 1.0) / Steps ? 1 : peak * Steps / (Steps - 1);
    }

    private static string Data(ComparisonReport report, List<PagePrint> prints)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            ComparisonJson.Write(json, report, more =>
            {
                more.WriteBoolean("two_files", report.IsOfFiles);
                ComparisonJson.WriteOthers(more, "in_short", [report.Main, .. report.Others]);
                more.WriteStartArray("prints");
                foreach (var print in prints)
                {
                    Write(more, report, print);
                }

                more.WriteEndArray();
            });
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static void Write(Utf8JsonWriter json, ComparisonReport report, PagePrint print)
    {
        var (comparison, a, b) = print;
        json.WriteStartObject();
        json.WriteNumber("number", int.TryParse(comparison.Title.Split(' ')[0], NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : 0);
        json.WriteString("over", Over(report, comparison));
        json.WriteString("place", $"{Capital(comparison.PlaceWords)}.");
        json.WriteString("line", ComparisonVerdict.Line(comparison));
        json.WriteString("rest", ComparisonVerdict.Rest(comparison));
        ComparisonJson.WriteComparison(json, comparison);
        json.WriteStartObject("audio");
        json.WriteNumber("rate_hz", a.RateHz);
        json.WriteNumber("frames", Math.Min(a.Frames, b.Frames));
        json.WriteNumber("bits", 24);
        WriteSide(json, "a", a, Scale(a));
        WriteSide(json, "b", b, Scale(b));
        json.WriteEndObject();
        json.WriteEndObject();
    }

    internal static string Script(int index, string side, Sound sound) =>
        FormattableString.Invariant($"<script type=\"text/plain\" id=\"audio-{index}-{side}\">{Encode(sound, Scale(sound))}</script>");

    internal static void WriteSide(Utf8JsonWriter json, string name, Sound sound, double scale)
    {
        json.WriteStartObject(name);
        json.WriteNumber("channels", sound.Channels.Length);
        json.WriteNumber("scale", scale);
        json.WriteEndObject();
    }

    private static string Encode(Sound sound, double scale)
    {
        var bytes = new byte[sound.Frames * sound.Channels.Length * 3];
        var at = 0;
        for (var n = 0; n < sound.Frames; n++)
        {
            foreach (var channel in sound.Channels)
            {
                var value = (int)Math.Round(channel[n] / scale * Steps);
                bytes[at++] = (byte)value;
                bytes[at++] = (byte)(value >> 8);
                bytes[at++] = (byte)(value >> 16);
            }
        }

        return Convert.ToBase64String(bytes);
    }

    private sealed record PagePrint(Comparison Comparison, Sound A, Sound B);
}
