using System.Text;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Midi;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>Reads a tempo file: a map of this program, or a Standard MIDI File, told apart by what is in it.</summary>
public static class TempoReader
{
    /// <summary>Reads a tempo file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="name">What to call it, such as the chain does; the path when left out.</param>
    /// <param name="firstBar">Number of the first bar of a MIDI file, from 1; 1 when left out. A map says it itself.</param>
    /// <exception cref="UnreadableFileException">The file is not there or cannot be opened; or the number is given for a map.</exception>
    /// <exception cref="ChainException">The file has mistakes: all of them, located.</exception>
    public static TempoMap Read(string path, string? name = null, int? firstBar = null)
    {
        var bytes = SourceFile.Read(path);
        if (MidiFile.Recognises(bytes))
        {
            return ReadMidi(bytes, path, name ?? path).NumberedFrom(firstBar ?? 1, MidiTempo.MostBars);
        }

        var map = Parse(bytes, path, name ?? path);
        return firstBar is null ? map : throw new UnreadableFileException(path, FormattableString.Invariant($"this tempo map says itself that it begins with bar {map.FirstBar}; first_bar is for a MIDI file. Take it out of the chain."));
    }

    /// <summary>Reads a tempo map from text.</summary>
    /// <exception cref="ChainException">The text has mistakes: all of them, located.</exception>
    public static TempoMap Parse(string json, string path, string? name = null) => Parse(Encoding.UTF8.GetBytes(json), path, name ?? path);

    /// <summary>Reads a tempo map from the bytes of a file.</summary>
    /// <exception cref="ChainException">They have mistakes: all of them, located.</exception>
    internal static TempoMap Parse(byte[] utf8, string path, string name)
    {
        var problems = new ProblemList(path);
        var map = FormFile.Read(utf8, TempoKeys.Shape, TempoKeys.TempoMap, "tempo map", new FormReader(problems, []), problems);
        if (map is not null)
        {
            Check(map, problems);
        }

        problems.ThrowIfAny();
        return Build(map!, name);
    }

    /// <summary>Reads a Standard MIDI File.</summary>
    /// <exception cref="UnreadableFileException">It is broken, or says what no map can hold.</exception>
    internal static TempoMap ReadMidi(byte[] bytes, string path, string name)
    {
        try
        {
            return MidiTempo.Read(bytes, name);
        }
        catch (MidiFormatException e)
        {
            throw new UnreadableFileException(path, e.Message);
        }
    }

    /// <summary>Checks a tempo map that stands inside another file.</summary>
    /// <returns>Null after a mistake.</returns>
    internal static TempoMap? Inside(Values map, string name, ProblemList problems)
    {
        Check(map, problems);
        return problems.Count == 0 ? Build(map, name) : null;
    }

    private static void Check(Values map, ProblemList problems)
    {
        var bars = map.Entries(TempoKeys.Bars);
        var sections = map.Entries(TempoKeys.Sections);
        if (bars.Count > 0)
        {
            if (bars[0].Lacks(TempoBarKeys.Metre))
            {
                problems.Add(bars[0].Position, bars[0].PlaceOf(TempoBarKeys.Metre), "'metre' is missing; the first entry must say it, such as \"4/4\".");
            }

            if (bars[0].Lacks(TempoBarKeys.Bpm))
            {
                problems.Add(bars[0].Position, bars[0].PlaceOf(TempoBarKeys.Bpm), "'bpm' is missing; the first entry must say it, such as 104.");
            }
        }

        Rising(bars, TempoBarKeys.FromBar, problems);
        Rising(sections, SectionKeys.FromBar, problems);
        if (map.Number(TempoKeys.LastBar) is { } last && bars.Select(b => b.Number(TempoBarKeys.FromBar)).Max() is { } highest && highest > last)
        {
            problems.Add(map.At(TempoKeys.LastBar), map.PlaceOf(TempoKeys.LastBar),
                $"the last bar is {Show.Number(last)}, but 'bars' goes on to {Show.Number(highest)}. Nearest: {Show.Number(highest)}.");
        }
        else if (map.Number(TempoKeys.LastBar) is { } end && bars.Count > 0 && bars[0].Number(TempoBarKeys.FromBar) is { } first)
        {
            foreach (var section in sections.Where(s => s.Number(SectionKeys.FromBar) is { } bar && (bar < first || bar > end)))
            {
                problems.Add(section.At(SectionKeys.FromBar), section.PlaceOf(SectionKeys.FromBar),
                    $"there is no bar {Show.Number(section.Number(SectionKeys.FromBar)!.Value)}; the song runs from bar {Show.Number(first)} to {Show.Number(end)}.");
            }
        }
    }

    private static void Rising(IReadOnlyList<Values> entries, Dsp.Parameters.NumberParameter fromBar, ProblemList problems)
    {
        double? before = null;
        foreach (var entry in entries)
        {
            if (entry.Number(fromBar) is not { } bar)
            {
                continue;
            }

            if (bar <= before)
            {
                problems.Add(entry.At(fromBar), entry.PlaceOf(fromBar), $"bar {Show.Number(bar)} comes after bar {Show.Number(before.Value)} in the list. List bars in order, each once.");
            }

            before = bar;
        }
    }

    private static TempoMap Build(Values map, string name)
    {
        var stretches = new List<TempoStretch>();
        foreach (var bar in map.Entries(TempoKeys.Bars))
        {
            var (beats, unit) = bar.Text(TempoBarKeys.Metre) is { } metre ? Metre.Parse(metre)!.Value : (stretches[^1].Beats, stretches[^1].BeatUnit);
            stretches.Add(new TempoStretch(bar.Whole(TempoBarKeys.FromBar), beats, unit, bar.Number(TempoBarKeys.Bpm) ?? stretches[^1].Bpm));
        }

        var sections = map.Entries(TempoKeys.Sections).Select(s => new Section(s.Whole(SectionKeys.FromBar), s.Text(SectionKeys.Name)!));
        return new TempoMap(name, stretches, [.. sections], map.Whole(TempoKeys.LastBar));
    }
}
