using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Dsp.Metering;

namespace DrumPrint.Measuring;

/// <summary>A measured file as JSON; docs/measure-format.md describes the keys.</summary>
public static class MeasurementJson
{
    public static void WriteProperties(Utf8JsonWriter json, FileMeasurement file)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(file);
        var info = file.Info;
        json.WriteString("file", info.Path);
        json.WriteNumber("rate_hz", info.SampleRate);
        json.WriteNumber("channels", info.Channels);
        json.WriteNumber("bits", info.ValidBits);
        json.WriteBoolean("float", info.Encoding.IsFloat());
        json.WriteString("remark", info.Remark);
        json.WriteNumber("frames", info.Frames);
        Write(json, "length_s", (double)info.Frames / info.SampleRate, 6);
        WriteProperties(json, file.Sound);
    }

    public static void WriteProperties(Utf8JsonWriter json, SoundReading sound)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(sound);
        Write(json, "integrated_lufs", sound.IntegratedLufs, 2);
        Write(json, "short_term_max_lufs", sound.ShortTermMaxLufs, 2);
        Write(json, "momentary_max_lufs", sound.MomentaryMaxLufs, 2);
        Write(json, "range_lu", sound.RangeLu, 2);
        Write(json, "true_peak_dbtp", sound.TruePeakDbtp, 2);
        Write(json, "sample_peak_dbfs", sound.SamplePeakDbfs, 2);
        Write(json, "rms_dbfs", sound.RmsDbfs, 2);
        Write(json, "crest_db", sound.CrestDb, 2);
        Write(json, "dc", sound.Dc, 8);
        Write(json, "correlation", sound.Correlation, 4);
        Write(json, "decay_s", sound.DecayS, 3);
        Write(json, "active_share", sound.ActiveShare, 4);
    }

    private static void Write(Utf8JsonWriter json, string name, double? value, int digits)
    {
        if (value is { } v && double.IsFinite(v))
        {
            // Adding nought turns −0 into 0.
            json.WriteNumber(name, Math.Round(v, digits) + 0);
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
