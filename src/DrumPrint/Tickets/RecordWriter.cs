using System.Globalization;
using System.Text.Json;
using DrumPrint.Chains;
using DrumPrint.Chains.Writing;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Tickets;

/// <summary>Writes what a ticket and the part of it inside a print share.</summary>
internal static class RecordWriter
{
    public static void WriteText(Utf8JsonWriter json, Parameter key, string? text)
    {
        if (text is not null)
        {
            json.WriteString(key.Key, text);
        }
    }

    /// <summary>A word of a list; one that is a number stands bare, as the reader wants it.</summary>
    public static void Write(Utf8JsonWriter json, ChoiceParameter key, string word)
    {
        if (int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
        {
            json.WriteNumber(key.Key, number);
        }
        else
        {
            json.WriteString(key.Key, word);
        }
    }

    /// <summary>A level to 0.01; left out where there is none.</summary>
    public static void WriteLevel(Utf8JsonWriter json, NumberParameter key, double value)
    {
        if (double.IsFinite(value))
        {
            json.WriteNumber(key.Key, Math.Round(value, 2));
        }
    }

    public static void WriteInputs(Utf8JsonWriter json, string key, IReadOnlyList<RecordedInput> inputs)
    {
        json.WriteStartArray(key);
        foreach (var input in inputs)
        {
            json.WriteStartObject();
            json.WriteString(InputKeys.Name.Key, input.Name);
            json.WriteString(InputKeys.File.Key, input.File);
            json.WriteString(InputKeys.AudioSha256.Key, input.AudioSha256);
            WriteText(json, InputKeys.FileSha256, input.FileSha256);
            if (input.StartFrame is { } start)
            {
                json.WriteNumber(InputKeys.Start.Key, start);
            }

            json.WriteNumber(InputKeys.Frames.Key, input.Frames);
            json.WriteNumber(InputKeys.Rate.Key, input.RateHz);
            json.WriteNumber(InputKeys.Channels.Key, input.Channels);
            Write(json, EncodingKeys.Encoding, EncodingKeys.Word(input.Encoding));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    public static void WriteChain(Utf8JsonWriter json, Chain chain)
    {
        json.WritePropertyName(RecordKeys.Chain.Key);
        ChainWriter.Write(json, chain);
        if (chain.Song.Tempo is { } tempo)
        {
            json.WriteStartObject(RecordKeys.Tempo.Key);
            TempoWriter.WriteKeys(json, tempo);
            json.WriteEndObject();
        }
    }
}
