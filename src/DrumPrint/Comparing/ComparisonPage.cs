using System.Text;
using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Dsp.Resampling;

namespace DrumPrint.Comparing;

/// <summary>Writes a comparison as one HTML file that holds everything: figures, pictures, sound and blind test.</summary>
public static class ComparisonPage
{
    private const int Steps = 1 << 23;
    private const int HighestRate = 48000;

    /// <summary>Writes the page.</summary>
    /// <exception cref="AudioFileException">The file cannot be written.</exception>
    public static void Write(string path, ComparisonReport report)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(report);
        var main = report.Main;
        var (a, b) = (Listening(main.A.Sound!), Listening(main.B.Sound!));
        var (scaleA, scaleB) = (Scale(a), Scale(b));
        PageText.Write(path, PageText.Part("page.html"), new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["title"] = PageText.Html($"{main.A.Name} against {main.B.Name}"),
            ["style"] = PageText.Part("page.css"),
            ["over"] = PageText.Html(main.Title.Length > 0 ? $"Comparison of {main.Title}" : "Comparison"),
            ["a"] = PageText.Html(main.A.Name),
            ["b"] = PageText.Html(main.B.Name),
            ["place"] = PageText.Html($"{Capital(main.PlaceWords)}."),
            ["verdict"] = PageText.Html(ComparisonVerdict.Line(main)),
            ["measured"] = PageText.Html(ComparisonVerdict.Rest(main)),
            ["measured-hidden"] = ComparisonVerdict.Rest(main).Length == 0 ? "hidden" : "",
            ["engine"] = EngineVersion.Text,
            ["data"] = Data(report, a, scaleA, b, scaleB),
            ["audio-a"] = Encode(a, scaleA),
            ["audio-b"] = Encode(b, scaleB),
            ["script"] = PageText.Script(
                "text.js", "binomial.js", "sound.js", "audition.js", "player.js", "desk.js", "blind.js", "waveform.js", "pictures.js", "spectrogram.js", "keys.js", "main.js"),
        });
    }

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    // Figures are measured at the session's rate; ears are served by 48 kHz.
    private static Sound Listening(Sound sound)
    {
        var rate = sound.RateHz;
        while (rate > HighestRate && rate % 2 == 0)
        {
            rate /= 2;
        }

        return rate == sound.RateHz ? sound : new Sound(rate, Array.ConvertAll(sound.Channels, c => RateConverter.Convert(c, sound.RateHz, rate)));
    }

    // A rendered side may go above full scale.
    private static double Scale(Sound sound)
    {
        var peak = sound.Channels.SelectMany(c => c).Max(Math.Abs);
        return peak <= (Steps - 1.0) / Steps ? 1 : peak * Steps / (Steps - 1);
    }

    private static string Data(ComparisonReport report, Sound a, double scaleA, Sound b, double scaleB)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            ComparisonJson.Write(json, report, audio =>
            {
                audio.WriteStartObject("audio");
                audio.WriteNumber("rate_hz", a.RateHz);
                audio.WriteNumber("frames", Math.Min(a.Frames, b.Frames));
                audio.WriteNumber("bits", 24);
                WriteSide(audio, "a", a, scaleA);
                WriteSide(audio, "b", b, scaleB);
                audio.WriteEndObject();
            });
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static void WriteSide(Utf8JsonWriter json, string name, Sound sound, double scale)
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
}
