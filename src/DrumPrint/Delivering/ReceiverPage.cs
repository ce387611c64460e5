using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json;
using DrumPrint.Delivering.Sheet;

namespace DrumPrint.Delivering;

/// <summary>Writes the page on which whoever receives a delivery hears it: every file with fader, mute and solo, all in step, and every sum checked.</summary>
/// <remarks>It plays the delivered files themselves. Where it lies on a disk, a browser lets it read them only once the folder is chosen by
/// hand. It asks nothing of any network.</remarks>
internal static class ReceiverPage
{
    private const string Parts = "Delivering.Receiver.";
    private static readonly string[] Own = ["wave-file.js", "stream.js", "main.js"];
    private static readonly string[] Shared = ["Comparing.Page.text.js", "Comparing.Page.clock.js", "Comparing.Page.sound.js", "Comparing.Page.waveform.js", "Comparing.Page.keys.js"];

    /// <summary>The page.</summary>
    /// <param name="facts">What is delivered; the manifest holds every file but sheets and this page.</param>
    public static string Of(SheetFacts facts)
    {
        var slots = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["title"] = WebUtility.HtmlEncode(facts.Chain.Song.Title),
            ["under"] = string.Create(CultureInfo.InvariantCulture, $"Drum tracks, version {facts.Manifest.Version}, to hear before you open a session: {facts.Manifest.Of(DeliveredKind.Playing).Count} files that add up to the rough with every fader at 0."),
            ["style"] = SheetHtml.Part("Comparing.Page.page.css") + SheetHtml.Part("Delivering.Sheet.sheet.css") + SheetHtml.Part(Parts + "receiver.css"),
            ["bus"] = SheetHtml.Body([.. SheetChanges.Wishes(facts.Manifest), .. SheetDrumBus.Of(facts)]),
            ["engine"] = WebUtility.HtmlEncode(facts.Manifest.Engine),
            ["data"] = Data(facts),
            ["mixer"] = SheetHtml.Part(Parts + "mixer.js"),
            ["sums"] = SheetHtml.Part(Parts + "sums.js"),
            ["script"] = "(() => {\n'use strict';\n" + string.Join("\n", [.. Shared.Select(SheetHtml.Part), .. Own.Select(n => SheetHtml.Part(Parts + n))]) + "})();",
        };
        return Filled(SheetHtml.Part(Parts + "receiver.html"), slots);
    }

    // Each slot once, from left to right: what fills one is not looked into.
    private static string Filled(string template, Dictionary<string, string> slots)
    {
        var page = new StringBuilder();
        var at = 0;
        for (int open; (open = template.IndexOf("{{", at, StringComparison.Ordinal)) >= 0;)
        {
            var close = template.IndexOf("}}", open, StringComparison.Ordinal);
            page.Append(template, at, open - at).Append(slots[template[(open + 2)..close]]);
            at = close + 2;
        }

        return page.Append(template, at, template.Length - at).ToString();
    }

    // The default escaping leaves no sign that could end the script element.
    private static string Data(SheetFacts facts)
    {
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes))
        {
            json.WriteStartObject();
            json.WriteNumber("rate_hz", facts.Manifest.RateHz);
            json.WriteNumber("frames", facts.Manifest.Frames);
            json.WriteStartArray("files");
            foreach (var file in facts.Manifest.Files.Where(f => f.Sound is not null && f.Kind != DeliveredKind.Dry && f.Side != SoundSide.Right))
            {
                var sound = facts.Sounds[file.Name];
                json.WriteStartObject();
                json.WriteString("name", file.Name);
                if (facts.Manifest.Files.FirstOrDefault(f => f.Side == SoundSide.Right && f.Kind == file.Kind && f.Number == file.Number && file.Side == SoundSide.Left) is { } right)
                {
                    json.WriteString("right", right.Name);
                }

                json.WriteNumber("number", file.Number!.Value);
                json.WriteString("title", file.Title);
                json.WriteString("kind", ManifestKeys.Word(file.Kind));
                json.WriteString("what", SheetPrints.What(facts, file));
                // The loudness of a side alone is not that of the sound.
                if ((file.Side == SoundSide.Whole ? sound.IntegratedLufs : Loudness(facts, file)) is { } lufs)
                {
                    json.WriteNumber("lufs", Math.Round(lufs, 2));
                }
                else
                {
                    json.WriteNull("lufs");
                }

                json.WriteBase64String("outline", facts.Outlines[file.Name].ToBytes());
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartArray("sums");
            foreach (var file in facts.Manifest.Files)
            {
                json.WriteStartObject();
                json.WriteString("name", file.Name);
                json.WriteString("sum", file.FileSha256);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            Bars(json, facts);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    private static double? Loudness(SheetFacts facts, DeliveredFile file) =>
        facts.Ticket.Prints.First(p => p.Number == file.Number).IntegratedLufs is var lufs && double.IsFinite(lufs) ? lufs : null;

    // One bar more than the song has, so that the last one has an end.
    private static void Bars(Utf8JsonWriter json, SheetFacts facts)
    {
        var tempo = facts.Tempo;
        json.WriteStartArray("bars");
        for (var bar = tempo?.FirstBar ?? 1; bar <= (tempo?.LastBar + 1 ?? 0); bar++)
        {
            json.WriteStartObject();
            json.WriteNumber("bar", bar);
            json.WriteNumber("at_s", Math.Round(tempo!.SecondsAtBar(bar), 6));
            json.WriteNumber("beats", tempo.StretchAt(bar).Beats);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("sections");
        foreach (var section in tempo?.Sections ?? [])
        {
            json.WriteStartObject();
            json.WriteString("name", section.Name);
            json.WriteNumber("at_s", Math.Round(tempo!.SecondsAtBar(section.FromBar), 6));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
