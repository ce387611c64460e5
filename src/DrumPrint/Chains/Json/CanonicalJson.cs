using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace DrumPrint.Chains.Json;

/// <summary>The one way canonical texts are laid out: two spaces, line feeds, one at the end.</summary>
internal static class CanonicalJson
{
    private static readonly JsonWriterOptions Indented = new()
    {
        Indented = true,
        IndentCharacter = ' ',
        IndentSize = 2,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private static readonly JsonWriterOptions Dense = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Text(Action<Utf8JsonWriter> write) => Encoding.UTF8.GetString(Bytes(write, Indented)) + "\n";

    /// <summary>The same without any space, for where no person reads it first.</summary>
    public static byte[] DenseBytes(Action<Utf8JsonWriter> write) => Bytes(write, Dense);

    private static byte[] Bytes(Action<Utf8JsonWriter> write, JsonWriterOptions options)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, options))
        {
            write(json);
        }

        return stream.ToArray();
    }
}
