using System.Text.Json;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>Writes manifests.</summary>
internal static class ManifestWriter
{
    private const int MinuteDigits = 60 * SoundSums.PieceDigits;

    public static string Text(DeliveryManifest manifest) => CanonicalJson.Text(json =>
    {
        json.WriteStartObject();
        json.WriteNumber(ManifestKeys.Delivery.Key, ManifestKeys.Format);
        json.WriteString(ManifestKeys.Engine.Key, manifest.Engine);
        json.WriteString(ManifestKeys.Title.Key, manifest.Title);
        json.WriteString(ManifestKeys.Code.Key, manifest.Code);
        json.WriteNumber(ManifestKeys.Version.Key, manifest.Version);
        json.WriteNumber(ManifestKeys.Rate.Key, manifest.RateHz);
        json.WriteNumber(ManifestKeys.Frames.Key, manifest.Frames);
        RecordWriter.Write(json, EncodingKeys.Encoding, EncodingKeys.Word(manifest.Encoding));
        json.WriteString(ManifestKeys.ChainSha256.Key, manifest.ChainSha256);
        if (manifest.PrintedRateHz is { } printedRate)
        {
            json.WriteNumber(ManifestKeys.PrintedRate.Key, printedRate);
        }

        if (manifest.PrintedBits is { } printedBits)
        {
            json.WriteString(ManifestKeys.PrintedBits.Key, printedBits);
        }

        if (manifest.SinceVersion is { } since)
        {
            json.WriteNumber(ManifestKeys.SinceVersion.Key, since);
            json.WriteString(ManifestKeys.SinceSha256.Key, manifest.SinceSha256);
            json.WriteBoolean(ManifestKeys.Part.Key, manifest.IsPart);
            Texts(json, ManifestKeys.Withdrawn, manifest.Withdrawn);
            Texts(json, ManifestKeys.Changes, manifest.Changes);
        }

        if (manifest.Wishes.Count > 0)
        {
            json.WriteStartArray(ManifestKeys.Wishes.Key);
            foreach (var wish in manifest.Wishes)
            {
                Write(json, wish);
            }

            json.WriteEndArray();
        }

        json.WriteStartArray(ManifestKeys.Files.Key);
        foreach (var file in manifest.Files)
        {
            Write(json, file);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    });

    private static void Write(Utf8JsonWriter json, DeliveredFile file)
    {
        json.WriteStartObject();
        json.WriteString(ManifestKeys.File.Key, file.Name);
        json.WriteString(ManifestKeys.Kind.Key, ManifestKeys.Word(file.Kind));
        if (file.Number is { } number)
        {
            json.WriteNumber(ManifestKeys.Number.Key, number);
            json.WriteString(ManifestKeys.Name.Key, file.Title);
        }

        if (file.Side != SoundSide.Whole)
        {
            json.WriteString(ManifestKeys.Side.Key, ManifestKeys.Word(file.Side));
        }

        if (file.Called is { } called)
        {
            json.WriteString(ManifestKeys.Called.Key, called);
        }

        json.WriteNumber(ManifestKeys.Bytes.Key, file.Bytes);
        json.WriteString(ManifestKeys.FileSha256.Key, file.FileSha256);
        if (file.SourceSha256 is { } source)
        {
            json.WriteString(ManifestKeys.AudioSha256.Key, source);
            State(json, file);
        }
        else if (file.Sound is { } sound)
        {
            json.WriteString(ManifestKeys.AudioSha256.Key, sound.AudioSha256);
            json.WriteNumber(ManifestKeys.Channels.Key, sound.Channels);
            State(json, file);
            if (sound.Pieces.Length > 0)
            {
                Texts(json, ManifestKeys.Pieces, [.. sound.Pieces.Chunk(MinuteDigits).Select(m => new string(m))]);
            }
        }

        json.WriteEndObject();
    }

    private static void State(Utf8JsonWriter json, DeliveredFile file)
    {
        if (file.State != DeliveredState.Unsaid)
        {
            json.WriteString(ManifestKeys.State.Key, ManifestKeys.Word(file.State));
        }
    }

    private static void Write(Utf8JsonWriter json, AnsweredWish wish)
    {
        json.WriteStartObject();
        json.WriteNumber(ManifestKeys.WishVersion.Key, wish.Version);
        json.WriteString(ManifestKeys.WishText.Key, wish.Text);
        Texts(json, ManifestKeys.WishChanges, wish.Changes);
        if (wish.Answer is { } answer)
        {
            json.WriteString(ManifestKeys.WishAnswer.Key, answer);
        }

        json.WriteEndObject();
    }

    private static void Texts(Utf8JsonWriter json, TextsParameter key, IReadOnlyList<string> texts)
    {
        json.WriteStartArray(key.Key);
        foreach (var text in texts)
        {
            json.WriteStringValue(text);
        }

        json.WriteEndArray();
    }
}
