using System.Text.Json.Serialization;

namespace DrumPrint.Aligning;

[JsonSerializable(typeof(Dictionary<string, string>))]
internal sealed partial class KeptJson : JsonSerializerContext;
