using DrumPrint.Chains;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Tickets;

/// <summary>Reads what a ticket and the part of it inside a print share.</summary>
internal static class RecordReader
{
    /// <summary>Reads a text and the chain in it.</summary>
    /// <param name="utf8">The bytes.</param>
    /// <param name="path">The file, for messages; its folder is the chain's.</param>
    /// <param name="shape">What it must be.</param>
    /// <param name="format">The key that names its format.</param>
    /// <param name="what">What a message calls it.</param>
    /// <param name="allowsEmpty">Whether the chain may be without tracks, buses or prints.</param>
    /// <exception cref="TicketException">It has mistakes: all of them, located.</exception>
    public static (Values Values, Chain Chain) Read(byte[] utf8, string path, Shape shape, NumberParameter format, string what, bool allowsEmpty)
    {
        var problems = new ProblemList(path);
        var form = new FormReader(problems, Catalogue.All) { AllowsEmpty = allowsEmpty };
        var values = FormFile.Read(utf8, shape, format, what, form, problems);
        Chain? chain = null;
        if (values?.Group(RecordKeys.Chain) is { } inside && problems.Count == 0)
        {
            chain = Chain(values, inside, form, path, problems);
        }

        try
        {
            problems.ThrowIfAny();
        }
        catch (ChainException e)
        {
            throw Problem(e, values?.Text(RecordKeys.Engine));
        }

        return (values!, chain!);
    }

    public static IReadOnlyList<RecordedInput> Inputs(Values values, ShapesParameter key) =>
    [
        .. values.Entries(key).Select(i => new RecordedInput(
            i.Text(InputKeys.Name)!,
            i.Text(InputKeys.File)!,
            i.Text(InputKeys.AudioSha256)!,
            i.Text(InputKeys.FileSha256),
            (long)i.Number(InputKeys.Frames)!.Value,
            i.Whole(InputKeys.Rate),
            i.Whole(InputKeys.Channels),
            EncodingKeys.Of(i)) { StartFrame = (long?)i.Number(InputKeys.Start) }),
    ];

    private static Chain? Chain(Values values, Values inside, FormReader form, string path, ProblemList problems)
    {
        TempoMap? tempo = null;
        if (inside.Group(ChainKeys.Song)?.Text(SongKeys.Tempo) is { } name)
        {
            if (values.Group(RecordKeys.Tempo) is not { } map)
            {
                problems.Add(values.Position, RecordKeys.Tempo.Key, $"the chain names a tempo map ({name}), but there is none here.");
                return null;
            }

            tempo = TempoReader.Inside(map, name, problems);
        }

        return problems.Count == 0 ? ChainReader.Inside(inside, form, tempo, path, problems) : null;
    }

    private static TicketException Problem(ChainException e, string? engine)
    {
        var isRevision = e.Problems.Any(p => p.Place.EndsWith($".{StageKeys.Revision.Key}", StringComparison.Ordinal));
        var advice = engine is null || engine == EngineVersion.Text
            ? ""
            : $"{Environment.NewLine}It was printed by DrumPrint {engine}; this is {EngineVersion.Text}.";
        return new TicketException(
            isRevision ? $"{e.Message}{Environment.NewLine}A processor revision it needs is missing from this version.{advice}" : e.Message + advice, e);
    }
}
