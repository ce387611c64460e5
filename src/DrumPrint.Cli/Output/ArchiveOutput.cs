using System.Text.Json;
using DrumPrint.Archiving;
using DrumPrint.Language;

namespace DrumPrint.Cli.Output;

/// <summary>Tells of an archive.</summary>
internal static class ArchiveOutput
{
    public static void Write(ArchiveReport report)
    {
        var console = Terminal.Screen();
        console.Line(report.IsNew ? report.Folder : $"{report.Folder} is there already, the same to the last byte.");
        var impulses = report.Impulses == 0 ? "" : $", {Words.Count(report.Impulses, "impulse")}";
        console.Line($"{Words.Count(report.Tracks, "raw file")}{impulses}, {Words.Count(report.Prints, "print")}, chain and ticket, each proved by its hash; {Words.Number(report.Bytes / 1e6)} MB in all.");
        console.Line("To see that they print the same again: drumprint reprint on its prints folder; READ-ME-FIRST.txt names it.");
    }

    public static void Write(Stream stream, ArchiveReport report)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteString("folder", report.Folder);
        json.WriteBoolean("is_new", report.IsNew);
        json.WriteNumber("files", report.Files);
        json.WriteNumber("bytes", report.Bytes);
        json.WriteNumber("tracks", report.Tracks);
        json.WriteNumber("impulses", report.Impulses);
        json.WriteNumber("prints", report.Prints);
        json.WriteEndObject();
        json.Flush();
        stream.WriteByte((byte)'\n');
    }
}
