using System.Globalization;
using System.Text;
using System.Xml;
using System.Xml.Linq;

namespace DrumPrint.Audio;

/// <summary>Names of the channels of a file, from the list of tracks that field recorders write (iXML specification 3, TRACK_LIST).</summary>
internal static class ChannelNames
{
    private const string ChunkId = "iXML";
    private const int MostCharacters = 1 << 20;
    private const int LongestName = 120;

    /// <summary>One name for each channel; empty where the file gives none.</summary>
    /// <remarks>A description that cannot be read gives no names: the sound can still be used.</remarks>
    public static IReadOnlyList<string> Of(AudioReader reader)
    {
        var names = new string[reader.Info.Channels];
        Array.Fill(names, "");
        if (reader.Chunk(ChunkId) is not { } chunk)
        {
            return names;
        }

        foreach (var track in Tracks(chunk.Data))
        {
            // The place in the file counts; the number of the recorder's input is all that some writers give.
            var index = Number(track, "INTERLEAVE_INDEX") ?? Number(track, "CHANNEL_INDEX");
            if (index is { } n && n >= 1 && n <= names.Length && names[n - 1].Length == 0)
            {
                names[n - 1] = Plain(track.Element("NAME")?.Value ?? "");
            }
        }

        return names;
    }

    private static List<XElement> Tracks(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            using var text = new MemoryStream(bytes.Span.TrimEnd((byte)0).ToArray());
            using var xml = XmlReader.Create(text, new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, MaxCharactersInDocument = MostCharacters });
            return [.. XDocument.Load(xml).Root?.Element("TRACK_LIST")?.Elements("TRACK") ?? []];
        }
        catch (Exception e) when (e is XmlException or InvalidOperationException or DecoderFallbackException or ArgumentException)
        {
            return [];
        }
    }

    private static int? Number(XElement track, string name) =>
        int.TryParse(track.Element(name)?.Value, NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out var number) ? number : null;

    // One line without anything that steers a terminal.
    private static string Plain(string name)
    {
        var plain = new string([.. name.Select(c => char.IsControl(c) || char.GetUnicodeCategory(c) is UnicodeCategory.Format or UnicodeCategory.Surrogate or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator ? ' ' : c)]).Trim();
        return plain.Length > LongestName ? plain[..LongestName].TrimEnd() : plain;
    }
}
