using System.Globalization;
using System.Text;
using DrumPrint.Dsp;

namespace DrumPrint.Audio;

/// <summary>Rows of the coding history of a Broadcast Wave file (EBU R 98-1999). Each process appends one.</summary>
/// <remarks>The recommendation lists rates up to 48 kHz, words up to 24 bits and one or two channels. Other rates and
/// words are written in the same way. More channels leave the mode out.</remarks>
public static class CodingHistory
{
    /// <summary>A row for a process whose result is uncompressed.</summary>
    /// <param name="format">Rate and channels of the result.</param>
    /// <param name="bits">Word length of the result.</param>
    /// <param name="text">What the process was; a row holds ASCII without commas and line ends, so these are
    /// replaced.</param>
    public static string PcmRow(AudioFormat format, int bits, string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var mode = format.Channels switch
        {
            1 => "M=mono,",
            2 => "M=stereo,",
            _ => "",
        };
        return string.Create(CultureInfo.InvariantCulture, $"A=PCM,F={format.SampleRate},W={bits},{mode}T={Plain(text)}\r\n");
    }

    private static string Plain(string text)
    {
        var plain = new StringBuilder(text.Length);
        foreach (var c in text)
        {
            plain.Append(c switch
            {
                ',' => ';',
                '\r' or '\n' => ' ',
                >= ' ' and <= '~' => c,
                _ => '?',
            });
        }

        return plain.ToString();
    }
}
