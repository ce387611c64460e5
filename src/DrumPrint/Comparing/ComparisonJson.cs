using System.Text.Json;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Dsp.Alignment;

namespace DrumPrint.Comparing;

/// <summary>A comparison as JSON, for programs and for the page. <c>docs/compare-format.md</c> describes it.</summary>
public static class ComparisonJson
{
    /// <summary>Version of the format.</summary>
    public const int Format = 1;

    /// <summary>Writes a report.</summary>
    /// <param name="stream">Where to.</param>
    /// <param name="report">What was found.</param>
    public static void Write(Stream stream, ComparisonReport report)
    {
        ArgumentNullException.ThrowIfNull(stream);
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            Write(json, report, null);
        }

        stream.WriteByte((byte)'\n');
    }

    internal static void Write(Utf8JsonWriter json, ComparisonReport report, Action<Utf8JsonWriter>? more)
    {
        ArgumentNullException.ThrowIfNull(report);
        json.WriteStartObject();
        json.WriteNumber("comparison", Format);
        json.WriteString("engine", EngineVersion.Text);
        json.WriteString("song", report.Song);
        WriteList(json, "changed", report.Changed);
        WriteComparison(json, report.Main);
        OverviewJson.Write(json, report.Overview);
        WriteOthers(json, "others", report.Others);
        WriteList(json, "recipe", report.Recipe);
        WriteList(json, "notes", report.Notes);
        more?.Invoke(json);
        json.WriteEndObject();
    }

    /// <summary>What was measured of one pair.</summary>
    internal static void WriteComparison(Utf8JsonWriter json, Comparison main)
    {
        json.WriteString("title", main.Title);
        json.WriteString("verdict", main.Verdict);
        WriteSide(json, "a", main.A);
        WriteSide(json, "b", main.B);
        PassageJson.Write(json, main.Passage);
        WriteAlignment(json, main.Alignment);
        WriteMatch(json, main.Matching);
        WriteNull(json, main);
        WriteBands(json, main.ThirdOctaves);
        WriteHits(json, main.Hits);
        WriteCurves(json, main.GainReductions);
        WriteAddition(json, main.Addition);
    }

    /// <summary>A number as it was measured; null for one that is not finite. Who shows it rounds it, and nobody before: rounded
    /// twice, one figure reads differently in two places.</summary>
    internal static void WriteNumber(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number && double.IsFinite(number))
        {
            json.WriteNumber(name, number);
        }
        else
        {
            json.WriteNull(name);
        }
    }

    internal static void WriteList(Utf8JsonWriter json, string name, IEnumerable<string> texts)
    {
        json.WriteStartArray(name);
        foreach (var text in texts)
        {
            json.WriteStringValue(text);
        }

        json.WriteEndArray();
    }

    private static void WriteSide(Utf8JsonWriter json, string name, ComparedSide side)
    {
        var measures = side.Measures;
        json.WriteStartObject(name);
        json.WriteString("name", side.Name);
        json.WriteNumber("channels", side.Channels);
        json.WriteStartObject("measures");
        WriteNumber(json, "loudness_lufs", measures.LoudnessLufs);
        WriteNumber(json, "peak_dbfs", measures.PeakDbfs);
        WriteNumber(json, "true_peak_dbtp", measures.TruePeakDbtp);
        WriteNumber(json, "rms_dbfs", measures.RmsDbfs);
        WriteNumber(json, "crest_db", measures.CrestDb);
        WriteNumber(json, "range_lu", measures.RangeLu);
        WriteNumber(json, "correlation", measures.Correlation);
        WriteNumber(json, "width_db", measures.WidthDb);
        json.WriteBoolean("is_mono", double.IsNegativeInfinity(measures.WidthDb));
        WriteNumber(json, "mono_loss_db", measures.MonoLossDb);
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void WriteAlignment(Utf8JsonWriter json, Alignment alignment)
    {
        json.WriteStartObject("alignment");
        json.WriteNumber("delay_frames", alignment.DelayFrames);
        WriteNumber(json, "delay_ms", alignment.DelayMs);
        json.WriteString("polarity", PolarityWord(alignment.Polarity));
        json.WriteBoolean("is_inverted", alignment.IsInverted);
        WriteNumber(json, "correlation", alignment.Correlation);
        WriteNumber(json, "unused_delay_frames", alignment.Unused?.Frames);
        WriteNumber(json, "unused_correlation", alignment.Unused?.Correlation);
        if (alignment.Hits is { } hits)
        {
            json.WriteStartObject("by_hits");
            json.WriteNumber("hits", hits.Hits);
            WriteNumber(json, "delay_frames", hits.DelayFrames);
            WriteNumber(json, "delay_ms", hits.DelayMs);
            WriteNumber(json, "spread_frames", hits.SpreadFrames);
            WriteNumber(json, "distance_m", hits.DistanceM);
            json.WriteBoolean("is_delay_known", hits.IsDelayKnown);
            WriteNumber(json, "confidence", hits.Confidence);
            WriteNumber(json, "polarity_confidence", hits.PolarityConfidence);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("by_hits");
        }

        json.WriteEndObject();
    }

    private static string PolarityWord(PairPolarity polarity) => polarity switch
    {
        PairPolarity.Same => "same",
        PairPolarity.Opposite => "opposite",
        _ => "cannot_be_told",
    };

    private static void WriteMatch(Utf8JsonWriter json, Matching matching)
    {
        json.WriteStartObject("match");
        json.WriteString("metric", matching.Metric switch
        {
            LevelMatch.Loudness => "loudness",
            LevelMatch.Rms => "rms",
            _ => "true_level",
        });
        WriteNumber(json, "a", matching.A);
        WriteNumber(json, "b", matching.B);
        WriteNumber(json, "offset_db", matching.OffsetDb);
        WriteNumber(json, "trim_db", matching.TrimDb);
        WriteNumber(json, "left_over_db", matching.LeftOverDb);
        json.WriteEndObject();
    }

    private static void WriteNull(Utf8JsonWriter json, Comparison comparison)
    {
        var nulls = comparison.Null;
        json.WriteStartObject("null");
        json.WriteBoolean("is_identical", nulls.IsIdentical);
        if (comparison.IsWholeIdentical is { } whole)
        {
            json.WriteBoolean("is_whole_identical", whole);
        }

        json.WriteBoolean("is_pure_gain", nulls.IsPureGain);
        WriteNumber(json, "rms_db", nulls.RmsDb);
        WriteNumber(json, "peak_dbfs", nulls.PeakDbfs);
        WriteNumber(json, "best_gain_db", nulls.BestGainDb);
        WriteNumber(json, "best_rms_db", nulls.BestRmsDb);
        json.WriteEndObject();
    }

    private static void WriteBands(Utf8JsonWriter json, IReadOnlyList<ThirdOctave> bands)
    {
        json.WriteStartArray("third_octaves");
        foreach (var band in bands)
        {
            json.WriteStartObject();
            json.WriteNumber("hz", band.NominalHz);
            WriteNumber(json, "a_db", band.ADb);
            WriteNumber(json, "b_db", band.BDb);
            WriteNumber(json, "difference_db", band.DifferenceDb);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteHits(Utf8JsonWriter json, HitDifference hits)
    {
        json.WriteStartObject("hits");
        json.WriteNumber("count", hits.Count);
        WriteNumber(json, "attack_db", hits.AttackDb);
        WriteNumber(json, "sustain_db", hits.SustainDb);
        json.WriteNumber("sustain_count", hits.SustainCount);
        WriteValues(json, "at_s", hits.AtS);
        json.WriteEndObject();
    }

    internal static void WriteCurves(Utf8JsonWriter json, IReadOnlyList<GainReductionCurve> curves)
    {
        json.WriteStartArray("gain_reduction");
        foreach (var curve in curves)
        {
            json.WriteStartObject();
            json.WriteString("title", curve.Title);
            json.WriteNumber("step_s", Math.Round(curve.StepS, 6));
            WriteValues(json, "a", curve.A);
            WriteValues(json, "b", curve.B);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    internal static void WriteValues(Utf8JsonWriter json, string name, IReadOnlyList<double>? values)
    {
        if (values is null)
        {
            json.WriteNull(name);
            return;
        }

        // One line: a curve of twelve seconds has more than a thousand values.
        json.WritePropertyName(name);
        json.WriteRawValue("[" + string.Join(",", values.Select(v => v.ToString("R", System.Globalization.CultureInfo.InvariantCulture))) + "]");
    }

    private static void WriteAddition(Utf8JsonWriter json, Addition? addition)
    {
        if (addition is null)
        {
            json.WriteNull("addition");
            return;
        }

        json.WriteStartObject("addition");
        json.WriteString("what", addition.What);
        WriteNumber(json, "total_db", addition.TotalDb);
        WriteNumber(json, "below_120_hz_db", addition.LowDb);
        WriteNumber(json, "from_120_hz_to_2_khz_db", addition.MiddleDb);
        WriteNumber(json, "above_2_khz_db", addition.HighDb);
        json.WriteEndObject();
    }

    internal static void WriteOthers(Utf8JsonWriter json, string name, IEnumerable<Comparison> others)
    {
        json.WriteStartArray(name);
        foreach (var other in others)
        {
            var (a, b) = (other.A.Measures, other.B.Measures);
            json.WriteStartObject();
            json.WriteString("title", other.Title);
            json.WriteBoolean("is_identical", other.Null.IsIdentical);
            json.WriteBoolean("is_pure_gain", other.Null.IsPureGain);
            json.WriteNumber("delay_frames", other.Alignment.DelayFrames);
            WriteNumber(json, "loudness_lu", b.LoudnessLufs - a.LoudnessLufs);
            WriteNumber(json, "peak_db", b.PeakDbfs - a.PeakDbfs);
            WriteNumber(json, "crest_db", b.CrestDb - a.CrestDb);
            WriteNumber(json, "null_db", other.Null.RmsDb);
            json.WriteString("passage", other.Passage.Words);
            json.WriteString("verdict", other.Verdict);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
