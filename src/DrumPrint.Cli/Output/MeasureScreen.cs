using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Measuring;

namespace DrumPrint.Cli.Output;

/// <summary>Shows measured files: one as a sheet, several as a table.</summary>
internal static class MeasureScreen
{
    private const string None = "–";

    // The order of the sheet. In the table those with the lowest rank stay when the window is narrow.
    private static readonly Figure[] Figures =
    [
        new(1, "Loudness", "LUFS", "Loud\nLUFS", f => Text(f.Sound.IntegratedLufs, "0.0")),
        new(4, "Loudest 3 s", "LUFS", "3 s\nmax", f => Text(f.Sound.ShortTermMaxLufs, "0.0")),
        new(7, "Loudest 400 ms", "LUFS", "0.4 s\nmax", f => Text(f.Sound.MomentaryMaxLufs, "0.0")),
        new(6, "Loudness range", "LU", "Range\nLU", f => Text(f.Sound.RangeLu, "0.0")),
        new(2, "True peak", "dBTP", "True\npeak", f => Text(f.Sound.TruePeakDbtp, "0.0")),
        new(10, "Sample peak", "dBFS", "Sample\npeak", f => Text(f.Sound.SamplePeakDbfs, "0.0")),
        new(11, "Mean level (RMS)", "dBFS", "RMS\ndBFS", f => Text(f.Sound.RmsDbfs, "0.0")),
        new(3, "Crest: peak over mean", "dB", "Crest\ndB", f => Text(f.Sound.CrestDb, "0.0")),
        new(12, "Offset (DC)", "of full scale", "DC", f => Text(f.Sound.Dc, "0.0000")),
        new(5, "Left like right", "1 same, 0 unrelated, −1 opposite", "L like\nR", f => Text(f.Sound.Correlation, "0.00")),
        new(9, "Dies away by 60 dB in", "s", "Decay\ns", f => Text(f.Sound.DecayS, "0.00")),
        new(8, "Sounds for", "of the time", "Sounds\nfor", f => f.Sound.ActiveShare is null ? None : Text(100 * f.Sound.ActiveShare, "0") + " %"),
        new(0, "Length", "s", "Length\ns", f => Text((double)f.Info.Frames / f.Info.SampleRate, "0.00")),
    ];

    public static void Write(IReadOnlyList<FileMeasurement> files)
    {
        if (files.Count == 1)
        {
            Sheet(files[0]);
        }
        else
        {
            Table(files);
        }
    }

    private static void Sheet(FileMeasurement file)
    {
        var console = Terminal.Screen();
        console.Line(file.Info.Path);
        console.Line(string.Create(CultureInfo.InvariantCulture, $"{Format(file.Info)}, {file.Info.Frames} frames"));
        if (file.Info.Remark is { } remark)
        {
            console.Line(remark);
        }

        var table = new ScreenTable(hasHead: false).Text("", isWhole: true).Figures("").Text("");
        foreach (var figure in Figures)
        {
            var text = figure.Of(file);
            table.Row(figure.Name, text, text == None ? "" : figure.Unit);
        }

        table.Draw(console);
    }

    private static void Table(IReadOnlyList<FileMeasurement> files)
    {
        var console = Terminal.Screen();
        string[] names = [.. files.Select(f => Path.GetFileNameWithoutExtension(f.Info.Path))];
        var table = new ScreenTable().Text("File");
        foreach (var figure in Figures)
        {
            table.Figures(figure.Heading, figure.Rank);
        }

        foreach (var (file, name) in files.Zip(names))
        {
            table.Row([Visible.Line(name), .. Figures.Select(f => f.Of(file))]);
        }

        table.Draw(console, ", one file at a time or --json too");
        foreach (var line in Formats(files, names))
        {
            console.Line(line);
        }

        foreach (var (file, name) in files.Zip(names).Where(f => f.First.Info.Remark is not null))
        {
            console.Line($"{name}: {file.Info.Remark}");
        }
    }

    // What most files are, and by name those that are something else.
    private static IEnumerable<string> Formats(IReadOnlyList<FileMeasurement> files, string[] names)
    {
        var groups = files.Zip(names).GroupBy(f => Format(f.First.Info), f => f.Second).OrderByDescending(g => g.Count()).ToList();
        yield return groups.Count == 1
            ? string.Create(CultureInfo.InvariantCulture, $"All {files.Count}: {groups[0].Key}.")
            : string.Create(CultureInfo.InvariantCulture, $"{groups[0].Count()} of {files.Count}: {groups[0].Key}. The others:");
        foreach (var group in groups.Skip(1))
        {
            yield return $"  {group.Key}: {string.Join(", ", group)}";
        }
    }

    private static string Format(AudioFileInfo info)
    {
        var channels = info.Channels switch
        {
            1 => "mono",
            2 => "stereo",
            _ => string.Create(CultureInfo.InvariantCulture, $"{info.Channels} channels"),
        };
        return string.Create(CultureInfo.InvariantCulture, $"{info.SampleRate} Hz, {channels}, {info.ValidBits} bit{(info.Encoding.IsFloat() ? " float" : "")}");
    }

    private static string Text(double? value, string format) =>
        value is { } v ? v.ToString(format + ";−" + format + ";" + format, CultureInfo.InvariantCulture) : None;

    private sealed record Figure(int Rank, string Name, string Unit, string Heading, Func<FileMeasurement, string> Of);
}
