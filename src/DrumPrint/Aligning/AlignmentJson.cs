using System.Text.Json;
using DrumPrint.Dsp.Alignment;

namespace DrumPrint.Aligning;

/// <summary>An alignment as JSON; docs/align-format.md describes the keys.</summary>
public static class AlignmentJson
{
    /// <summary>Writes a report and what was written into the chain.</summary>
    /// <param name="json">Where it goes.</param>
    /// <param name="report">The report.</param>
    /// <param name="moves">What was asked to be written.</param>
    /// <param name="isChanged">Whether the file changed.</param>
    public static void Write(Utf8JsonWriter json, AlignmentReport report, IReadOnlyList<AlignmentMove> moves, bool isChanged)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(report);
        ArgumentNullException.ThrowIfNull(moves);
        json.WriteStartObject();
        json.WriteString("engine", EngineVersion.Text);
        json.WriteString("chain", report.ChainPath);
        json.WriteNumber("rate_hz", report.RateHz);
        json.WriteStartArray("pairs");
        foreach (var row in report.Rows)
        {
            Write(json, row);
        }

        json.WriteEndArray();
        json.WriteStartArray("notes");
        foreach (var note in report.Notes)
        {
            json.WriteStringValue(note);
        }

        json.WriteEndArray();
        json.WriteStartArray("applied");
        foreach (var move in moves)
        {
            json.WriteStartObject();
            json.WriteString("track", move.Track);
            Number(json, "delay_ms", move.DelayMs, 2);
            Text(json, "polarity", move.IsInverted switch { true => "inverted", false => "normal", null => null });
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteBoolean("chain_changed", isChanged);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, AlignmentRow row)
    {
        var found = row.Found;
        json.WriteStartObject();
        json.WriteString("drum", row.Drum);
        json.WriteString("reference", row.Reference);
        json.WriteString("microphone", row.Microphone);
        json.WriteString("kind", row.Kind switch
        {
            MicrophoneKind.SameDrum => "same_drum",
            MicrophoneKind.Overhead => "overhead",
            _ => "room",
        });
        json.WriteNumber("hits", found.Hits);
        json.WriteBoolean("delay_known", found.IsDelayKnown);
        Number(json, "later_frames", found.IsDelayKnown ? found.DelayFrames : null, 2);
        Number(json, "later_ms", found.IsDelayKnown ? found.DelayMs : null, 3);
        Number(json, "later_m", found.IsDelayKnown ? found.DistanceM : null, 3);
        Number(json, "spread_frames", double.IsFinite(found.SpreadFrames) ? found.SpreadFrames : null, 2);
        Number(json, "confidence", found.Confidence, 2);
        Text(json, "polarity", row.Polarity switch { PairPolarity.Same => "same", PairPolarity.Opposite => "opposite", _ => null });
        Number(json, "polarity_confidence", found.PolarityConfidence, 2);
        Number(json, "body_agreement", found.BodyAgreement, 2);
        Number(json, "in_chain_later_ms", found.IsDelayKnown ? row.NowMs : null, 3);
        Text(json, "in_chain_polarity", row.IsOppositeNow switch { true => "opposite", false => "same", null => null });
        json.WriteEndObject();
    }

    private static void Number(Utf8JsonWriter json, string key, double? value, int digits)
    {
        if (value is { } number)
        {
            json.WriteNumber(key, Math.Round(number, digits) + 0);
        }
        else
        {
            json.WriteNull(key);
        }
    }

    private static void Text(Utf8JsonWriter json, string key, string? value)
    {
        if (value is null)
        {
            json.WriteNull(key);
        }
        else
        {
            json.WriteString(key, value);
        }
    }
}
