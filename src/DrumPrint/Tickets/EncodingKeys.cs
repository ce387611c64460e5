using DrumPrint.Audio;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Tickets;

/// <summary>How tickets name a sample encoding.</summary>
internal static class EncodingKeys
{
    public static readonly ChoiceParameter Encoding = new(
        "encoding",
        [
            new("8", "8-bit integer"),
            new(OutputKeys.Bits16, "16-bit integer"),
            new(OutputKeys.Bits24, "24-bit integer"),
            new("32", "32-bit integer"),
            new(OutputKeys.Bits32Float, "32-bit float"),
            new("64f", "64-bit float"),
        ],
        OutputKeys.Bits24,
        "How samples are stored.");

    public static string Word(SampleEncoding encoding) => encoding.Word();

    public static SampleEncoding Of(Values values)
    {
        var word = values.Word(Encoding);
        return Enum.GetValues<SampleEncoding>().First(e => Word(e) == word);
    }
}
