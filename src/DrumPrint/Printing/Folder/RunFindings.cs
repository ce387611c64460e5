using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Language;
using DrumPrint.Printing.Reports;
using DrumPrint.Printing.Runs;
using DrumPrint.Session;

namespace DrumPrint.Printing.Folder;

/// <summary>What a run tells beside its figures, in sentences.</summary>
internal static class RunFindings
{
    private const double SilentDb = -80;

    private static string BelowSilent => $"peak below {SilentDb.ToString(CultureInfo.InvariantCulture).Replace('-', '−')} dBFS";

    /// <summary>What was done beyond the chain's levels and processors.</summary>
    /// <param name="setup">The run.</param>
    /// <param name="attempt">What was rendered.</param>
    /// <param name="frames">Length of every file.</param>
    /// <param name="prints">The files.</param>
    public static IReadOnlyList<string> Notes(RunSetup setup, PrintAttempt attempt, long frames, IReadOnlyList<PrintedFile> prints)
    {
        var notes = new List<string>();
        if (setup.Run.EndsTicket)
        {
            notes.Add(Length(setup, attempt, frames));
        }

        notes.AddRange(setup.Found);
        if (OffWords.Of(setup.Chain) is { Count: > 0 } off)
        {
            notes.Add($"Off, and not heard: {Show.Some([.. off.Select(Show.Name)])}.");
        }

        foreach (var input in setup.Inputs.Tracks.Values.Where(t => t.IsConverted))
        {
            notes.Add($"Track '{input.Track.Name}' was resampled from {input.Info.SampleRate} to {setup.Chain.Song.RateHz} Hz.");
        }

        foreach (var input in setup.Inputs.ImpulseFiles.Where(i => i.Info.SampleRate != setup.Chain.Song.RateHz))
        {
            notes.Add($"Impulse '{input.File.Name}' was resampled from {input.Info.SampleRate} to {setup.Chain.Song.RateHz} Hz.");
        }

        notes.AddRange(setup.Inputs.Tracks.Values.Where(t => t.Info.Remark is not null).Select(t => $"Track '{t.Track.Name}': {t.Info.Remark}"));
        notes.AddRange(setup.Inputs.ImpulseFiles.Where(i => i.Info.Remark is not null).Select(i => $"Impulse '{i.File.Name}': {i.Info.Remark}"));
        if (setup.Chain.Song.Tempo?.Remark is { } remark)
        {
            notes.Add(remark);
        }

        if (Lowered(attempt.TrimDb) is { } lowered)
        {
            notes.Add(lowered);
        }

        if (!setup.Run.IsOfWholeSong)
        {
            notes.AddRange(ExcerptWords.Of(setup, attempt));

            // What is silent here may play elsewhere, and nothing of elsewhere was rendered.
            notes.AddRange(prints.Where(p => IsSilent(p.PeakDbfs)).Select(p => $"{p.FileName} is silent in this stretch ({BelowSilent}). It may well play elsewhere in the song."));
        }

        return notes;
    }

    /// <summary>What a user should look at.</summary>
    /// <param name="setup">The run.</param>
    /// <param name="attempt">What was rendered.</param>
    /// <param name="frames">Length of every file.</param>
    /// <param name="prints">The files.</param>
    /// <param name="nullPeakDbfs">Largest difference between the sum of the playing prints and the rough; null when it was not measured.</param>
    public static IReadOnlyList<string> Of(RunSetup setup, PrintAttempt attempt, long frames, IReadOnlyList<PrintedFile> prints, double? nullPeakDbfs)
    {
        List<PrintPeaks> peaks = [.. prints.Select(PrintPeaks.Of)];
        List<string> findings = [.. setup.Run.IsOfWholeSong ? OfPrints(setup.Encoding, peaks) : LoudPeaks.Of(setup.Encoding, peaks)];
        var bound = NullBoundDb(setup, prints);
        if (nullPeakDbfs > bound)
        {
            findings.Add(string.Create(CultureInfo.InvariantCulture, $"The prints do not add up to the rough: the largest difference is {nullPeakDbfs:0.0} dBFS, at most {bound:0.0} is expected at this word length."));
        }

        if (setup.Planner.MeasuresTails && attempt.Figures.Values.Any(f => f.QuietFrom >= setup.Planner.Cap))
        {
            findings.Add(string.Create(CultureInfo.InvariantCulture, $"Tails are cut at the first whole second past tail_cap_s, {setup.Chain.Output.TailCapS:0.###} s after the raw tracks end, before they fall 90 dB below their peak. Raise output.tail_cap_s to keep more."));
        }

        // Where an excerpt ends, a ride may still be on its way.
        findings.AddRange(ChainFindings.Of(setup, setup.Run.IsOfWholeSong ? frames : setup.Planner.Cap));
        return findings;
    }

    /// <summary>Those that single prints of the whole song show.</summary>
    public static IEnumerable<string> OfPrints(SampleEncoding encoding, IReadOnlyList<PrintPeaks> prints) =>
        [.. prints.Where(p => IsSilent(p.PeakDbfs)).Select(p => $"{p.FileName} is silent ({BelowSilent}). Check its feeds."), .. LoudPeaks.Of(encoding, prints)];

    /// <summary>By how much all prints were lowered; null when they were not.</summary>
    public static string? Lowered(double trimDb) => trimDb < 0
        ? string.Create(CultureInfo.InvariantCulture, $"All prints were lowered together by {-trimDb:0.0} dB so that none goes above 0 dBFS; their balance is unchanged.")
        : null;

    // Where the length comes from; whoever lines prints up by hand wants to know.
    private static string Length(RunSetup setup, PrintAttempt attempt, long frames)
    {
        // Up to the next millisecond: what ends a frame after a second does not end at it.
        string Seconds(long at) => (Math.Ceiling(at * 1000.0 / setup.Chain.Song.RateHz) / 1000).ToString("0.###", CultureInfo.InvariantCulture) + " s";

        var raw = setup.Planner.RawEnd;
        var longest = attempt.Figures.Values.Where(f => f.Target.Kind != PrintKind.Click).MaxBy(f => f.QuietFrom);
        var tail = setup.Chain.Output.TailS is { } fixedTail
            ? fixedTail == 0 ? $"the raw tracks end at {Seconds(raw)}" : string.Create(CultureInfo.InvariantCulture, $"the raw tracks end at {Seconds(raw)}, tail_s adds {fixedTail:0.###} s")
            : longest is null || setup.Planner.Tail(longest.QuietFrom) == 0 ? $"the raw tracks end at {Seconds(raw)}, and no tail rings longer"
            : string.Create(CultureInfo.InvariantCulture, $"last sound at {Seconds(longest.QuietFrom)} ({longest.Target.Number:00} {Show.Name(longest.Target.Name)})");

        // Told by what was measured; with a tail in seconds the files end where the chain says.
        var isRinging = setup.Planner.MeasuresTails && longest is not null && setup.Planner.Tail(longest.QuietFrom) > 0;
        var over = (isRinging ? longest!.QuietFrom : raw) - frames;
        return over > 0
            ? string.Create(CultureInfo.InvariantCulture, $"All files {Seconds(frames)}: {tail}; what lies past {Seconds(frames)} is left off, for less than 50 ms begin no other second.")
            : $"All files {Seconds(frames)}: {tail}; rounded up to a whole second.";
    }

    private static bool IsSilent(double peakDbfs) => peakDbfs < SilentDb;

    /// <summary>Most that is left when the rough is taken from the sum of the prints, by their word length.</summary>
    /// <remarks>Each file is off by half a step, or by one and a half with dither. Where a peak meets full scale it is half a
    /// step more.</remarks>
    public static double NullBoundDb(RunSetup setup, IReadOnlyList<PrintedFile> prints)
    {
        var files = prints.Count(p => p.Kind == PrintKind.Playing) + 1;
        var step = setup.Encoding switch
        {
            SampleEncoding.Pcm16 => 1.0 / (1 << 15),
            SampleEncoding.Pcm24 => 1.0 / (1 << 23),
            _ => 1.0 / (1 << 24),
        };
        var isDithered = setup.Encoding != SampleEncoding.Float32 && (setup.Chain.Output.Dither ?? setup.Encoding == SampleEncoding.Pcm16);
        return Decibels.FromGain(files * step * (isDithered ? 2 : 1));
    }
}
