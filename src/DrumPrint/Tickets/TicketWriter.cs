using System.Text;
using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Files;
using DrumPrint.Session;

namespace DrumPrint.Tickets;

/// <summary>Writes tickets.</summary>
internal static class TicketWriter
{
    public static string Text(Ticket ticket) => CanonicalJson.Text(json =>
    {
        json.WriteStartObject();
        json.WriteNumber(TicketKeys.Ticket.Key, ticket.Form);
        json.WriteString(RecordKeys.Engine.Key, ticket.Engine);
        json.WriteString(RecordKeys.ChainSha256.Key, ticket.ChainSha256);
        RecordWriter.WriteText(json, RecordKeys.TempoSha256, ticket.TempoSha256);
        RecordWriter.Write(json, EncodingKeys.Encoding, EncodingKeys.Word(ticket.Encoding));
        json.WriteNumber(RecordKeys.Length.Key, ticket.Frames);
        json.WriteNumber(RecordKeys.Trim.Key, ticket.TrimDb);
        RecordWriter.WriteLevel(json, TicketKeys.NullPeak, ticket.NullPeakDbfs ?? double.NaN);
        json.WriteBoolean(TicketKeys.NullIsExact.Key, ticket.NullPeakDbfs is double.NegativeInfinity);
        RecordWriter.WriteInputs(json, RecordKeys.Tracks.Key, ticket.Tracks);
        RecordWriter.WriteInputs(json, RecordKeys.Impulses.Key, ticket.Impulses);
        Prints(json, ticket.Prints);
        Sentences(json, TicketKeys.Notes, ticket.Notes);
        Sentences(json, TicketKeys.Findings, ticket.Findings);
        RecordWriter.WriteChain(json, ticket.Chain);
        json.WriteEndObject();
    });

    /// <summary>Whether a ticket is there already, to the last byte.</summary>
    public static bool IsThere(string path, string text)
    {
        try
        {
            var bytes = Encoding.UTF8.GetBytes(text);
            return File.Exists(path) && RegularFile.ReadAll(path, bytes.Length).AsSpan().SequenceEqual(bytes);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    private static void Prints(Utf8JsonWriter json, IReadOnlyList<RecordedPrint> prints)
    {
        json.WriteStartArray(TicketKeys.Prints.Key);
        foreach (var print in prints)
        {
            json.WriteStartObject();
            json.WriteNumber(TicketPrintKeys.Number.Key, print.Number);
            json.WriteString(TicketPrintKeys.Name.Key, print.Name);
            json.WriteString(TicketPrintKeys.Kind.Key, PrintKinds.Word(print.Kind));
            json.WriteString(TicketPrintKeys.File.Key, print.FileName);
            json.WriteNumber(TicketPrintKeys.Channels.Key, print.Channels);
            json.WriteString(TicketPrintKeys.AudioSha256.Key, print.AudioSha256);
            json.WriteString(TicketPrintKeys.FileSha256.Key, print.FileSha256);
            RecordWriter.WriteLevel(json, TicketPrintKeys.Peak, print.PeakDbfs);
            RecordWriter.WriteLevel(json, TicketPrintKeys.TruePeak, print.TruePeakDbtp);
            RecordWriter.WriteLevel(json, TicketPrintKeys.Integrated, print.IntegratedLufs);
            RecordWriter.WriteLevel(json, TicketPrintKeys.Range, print.RangeLu);
            RecordWriter.WriteLevel(json, TicketPrintKeys.MaxMomentary, print.MaxMomentaryLufs);
            RecordWriter.WriteLevel(json, TicketPrintKeys.MaxShortTerm, print.MaxShortTermLufs);
            json.WriteStartArray(TicketPrintKeys.GainReduction.Key);
            foreach (var reduction in print.GainReductions)
            {
                json.WriteStartObject();
                json.WriteString(GainReductionKeys.Processor.Key, reduction.Processor);
                RecordWriter.WriteText(json, GainReductionKeys.Bus, reduction.Bus);
                RecordWriter.WriteLevel(json, GainReductionKeys.Median, reduction.MedianDb);
                RecordWriter.WriteLevel(json, GainReductionKeys.Largest, reduction.LargestDb);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteNumber(TicketPrintKeys.Latency.Key, print.LatencyFrames);
            json.WriteNumber(TicketPrintKeys.Tail.Key, Math.Round(print.TailS, 3));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Sentences(Utf8JsonWriter json, TextsParameter key, IReadOnlyList<string> sentences)
    {
        json.WriteStartArray(key.Key);
        foreach (var sentence in sentences)
        {
            json.WriteStringValue(sentence);
        }

        json.WriteEndArray();
    }
}
