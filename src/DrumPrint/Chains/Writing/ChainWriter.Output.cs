using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Writing;

public static partial class ChainWriter
{
    private static void Write(Utf8JsonWriter json, OutputSettings output)
    {
        json.WriteStartObject(ChainKeys.Output.Key);
        ParameterForms.Of(OutputKeys.Bits).Write(json, OutputKeys.Bits, output.Encoding.Word());
        json.WriteString(OutputKeys.Dither.Key, output.Dither switch
        {
            true => OutputKeys.Triangular,
            false => OutputKeys.None,
            _ => OutputKeys.Auto,
        });
        if (output.TailS is { } tail)
        {
            json.WriteNumber(OutputKeys.Tail.Key, tail);
        }

        json.WriteNumber(OutputKeys.TailCap.Key, output.TailCapS);
        json.WriteString(OutputKeys.Over.Key, output.LowerTogether ? OutputKeys.LowerTogether : OutputKeys.Refuse);
        if (output.OverAtTruePeak)
        {
            // Left out where it is as it always was: the hashes of older tickets stay right.
            json.WriteString(OutputKeys.OverAt.Key, OutputKeys.TruePeak);
        }

        Write(json, OutputKeys.Rough, BesideKeys.Rough, output.Rough);
        Write(json, OutputKeys.RoughWithBus, BesideKeys.RoughWithBus, output.RoughWithBus);
        Write(json, OutputKeys.Click, BesideKeys.Click, output.Click);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, DeliverySettings delivery)
    {
        json.WriteStartObject(ChainKeys.Delivery.Key);
        Notes(json, DeliveryKeys.Names, delivery.Names);
        if (delivery.Wishes.Count > 0)
        {
            List(json, DeliveryKeys.Wishes, delivery.Wishes, Write);
        }

        json.WriteEndObject();
    }

    private static void Reference(Utf8JsonWriter json, Track reference)
    {
        json.WriteStartObject(ChainKeys.Reference.Key);
        json.WriteString(ReferenceKeys.File.Key, reference.File);
        Write(json, reference.Delay);
        json.WriteNumber(ReferenceKeys.Latency.Key, reference.LatencyMs);
        json.WriteBoolean(ReferenceKeys.Convert.Key, reference.Convert);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Wish wish)
    {
        json.WriteNumber(WishKeys.Version.Key, wish.Version);
        json.WriteString(WishKeys.Wish.Key, wish.Text);
        if (wish.About.Count > 0)
        {
            json.WriteStartArray(WishKeys.About.Key);
            foreach (var name in wish.About)
            {
                json.WriteStringValue(name);
            }

            json.WriteEndArray();
        }

        Notes(json, WishKeys.Answer, wish.Answer);
    }

    private static void Write(Utf8JsonWriter json, ShapeParameter parameter, BesideKeys keys, RoughPrint? file)
    {
        if (file is null)
        {
            json.WriteBoolean(parameter.Key, false);
            return;
        }

        json.WriteStartObject(parameter.Key);
        json.WriteNumber(keys.Number.Key, file.Number);
        json.WriteString(keys.Name.Key, file.Name);
        if (keys.Level is not null)
        {
            json.WriteNumber(keys.Level.Key, file.LevelDb);
        }

        json.WriteEndObject();
    }
}
