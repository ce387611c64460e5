using System.Text;
using DrumPrint.Chains.Format;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Files;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>Reads a chain file, checks it whole and tells every mistake at once.</summary>
public static class ChainReader
{
    /// <summary>Reads a chain file and the tempo file it names.</summary>
    /// <param name="path">The chain file, as the user named it.</param>
    /// <param name="catalogue">The processors it may name; all there are when left out.</param>
    /// <param name="reading">Where the tempo map may lie; within the session when left out.</param>
    /// <exception cref="UnreadableFileException">The file is not there or cannot be opened.</exception>
    /// <exception cref="ChainException">The file has mistakes: all of them, located.</exception>
    /// <exception cref="UsageException">The file is a ticket or a tempo map.</exception>
    public static Chain Read(string path, IReadOnlyList<ProcessorDefinition>? catalogue = null, ReadPolicy? reading = null) =>
        Parse(SourceFile.Read(path), path, catalogue, needsTempo: true, reading ?? ReadPolicy.Default, looksForFiles: true);

    /// <summary>Reads a chain from text; the tempo file it names is looked for beside the path.</summary>
    /// <exception cref="ChainException">The text has mistakes: all of them, located.</exception>
    /// <exception cref="UsageException">The file is a ticket or a tempo map.</exception>
    public static Chain Parse(string json, string path, IReadOnlyList<ProcessorDefinition>? catalogue = null) =>
        Parse(Encoding.UTF8.GetBytes(json), path, catalogue);

    /// <summary>Reads a chain from the bytes of a file.</summary>
    /// <exception cref="ChainException">They have mistakes: all of them, located.</exception>
    /// <exception cref="UsageException">The file is a ticket or a tempo map.</exception>
    public static Chain Parse(byte[] utf8, string path, IReadOnlyList<ProcessorDefinition>? catalogue = null) => Parse(utf8, path, catalogue, needsTempo: true, ReadPolicy.Default);

    /// <summary>Reads a chain file for its settings alone: a tempo map that is not there is no mistake.</summary>
    /// <exception cref="UnreadableFileException">The file is not there or cannot be opened.</exception>
    /// <exception cref="ChainException">The file has mistakes: all of them, located.</exception>
    /// <exception cref="UsageException">The file is a ticket or a tempo map.</exception>
    internal static Chain ReadSettings(string path, ReadPolicy reading) => Parse(SourceFile.Read(path), path, null, needsTempo: false, reading);

    private static Chain Parse(byte[] utf8, string path, IReadOnlyList<ProcessorDefinition>? catalogue, bool needsTempo, ReadPolicy reading, bool looksForFiles = false)
    {
        var problems = new ProblemList(path);
        var form = new FormReader(problems, catalogue ?? Catalogue.All);
        var values = FormFile.Read(utf8, ChainKeys.Shape, ChainKeys.Chain, "chain", form, problems);
        TempoMap? tempo = null;
        UsedRecipe? recipe = null;
        if (values is not null)
        {
            var reach = new SessionReach(reading, Path.GetDirectoryName(path) ?? "");
            recipe = new RecipeReader(problems, form, reach).Into(values, path, out var isGood);
            tempo = Tempo(values, path, problems, needsTempo, reach);
            if (isGood)
            {
                new ChainChecks(problems, values, tempo is { IsMissing: true } ? null : tempo).Run(form.References);
            }

            if (looksForFiles && problems.Any)
            {
                new MissingFiles(problems, Path.GetDirectoryName(path) ?? "", reach).Tell(values);
            }
        }

        problems.ThrowIfAny();
        return ChainBuilder.Build(values!, path, tempo) with { Uses = recipe };
    }

    /// <summary>Checks a chain that stands inside another file, with its tempo map beside it.</summary>
    /// <param name="values">What the file gives for it.</param>
    /// <param name="form">What has read it.</param>
    /// <param name="tempo">The tempo map; null when there is none.</param>
    /// <param name="path">The file.</param>
    /// <param name="problems">Gathers the mistakes.</param>
    /// <returns>Null after a mistake.</returns>
    internal static Chain? Inside(Values values, FormReader form, TempoMap? tempo, string path, ProblemList problems)
    {
        if (values.Has(ChainKeys.Use))
        {
            problems.Add(values.At(ChainKeys.Use), values.PlaceOf(ChainKeys.Use), "a chain inside a ticket or a print is whole and uses no recipe.");
            return null;
        }

        new ChainChecks(problems, values, tempo).Run(form.References);
        return problems.Count == 0 ? ChainBuilder.Build(values, path, tempo) : null;
    }

    private static TempoMap? Tempo(Values chain, string path, ProblemList problems, bool isNeeded, SessionReach reach)
    {
        if (chain.Group(ChainKeys.Song) is not { } song || song.Text(SongKeys.Tempo) is not { } name)
        {
            return null;
        }

        var file = Path.Combine(Path.GetDirectoryName(path) ?? "", name);
        if (reach.Outside(name) is { } outside)
        {
            problems.Add(song.At(SongKeys.Tempo), song.PlaceOf(SongKeys.Tempo), $"the tempo map {Show.Name(name)} is not read: {reach.Advice(outside)}");
            return null;
        }

        if (!File.Exists(file))
        {
            if (!isNeeded)
            {
                return TempoMap.Missing(name);
            }

            problems.Add(song.At(SongKeys.Tempo), song.PlaceOf(SongKeys.Tempo), $"the tempo map was not found: there is no file {file}.");
            return null;
        }

        try
        {
            return TempoReader.Read(file, name, song.Has(SongKeys.FirstBar) ? (int?)song.Number(SongKeys.FirstBar) : null);
        }
        catch (ChainException exception)
        {
            problems.AddOther(exception.Problems);
            return null;
        }
        catch (UnreadableFileException exception)
        {
            problems.Add(song.At(SongKeys.Tempo), song.PlaceOf(SongKeys.Tempo), exception.Message);
            return null;
        }
    }
}
