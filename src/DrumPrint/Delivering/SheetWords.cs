using System.Globalization;
using DrumPrint.Delivering.Sheet;
using DrumPrint.Language;
using DrumPrint.Session;

namespace DrumPrint.Delivering;

/// <summary>What the pieces of a sheet share.</summary>
internal static class SheetWords
{
    // A column that says nothing takes no room.
    public static TableBlock Table(IReadOnlyList<SheetColumn> columns, IReadOnlyList<IReadOnlyList<string>> rows)
    {
        var used = Enumerable.Range(0, columns.Count).Where(i => rows.Any(r => r[i].Length > 0)).ToList();
        return new TableBlock([.. used.Select(i => columns[i])], [.. rows.Select(r => (IReadOnlyList<string>)[.. used.Select(i => r[i])])]);
    }

    public static string Label(DeliveredFile file) => file.Number is not { } number ? file.Name
        : $"{Text(number, "00")} {file.Title}{file.Side switch { SoundSide.Left => ", left", SoundSide.Right => ", right", _ => "" }}{(file.Kind == DeliveredKind.Dry ? ", dry" : "")}";

    public static string Level(double? db) => db is { } value ? Words.Number(value) : "silent";

    public static string Text(int number, string format = "0") => number.ToString(format, CultureInfo.InvariantCulture);

    public static string Reductions(IReadOnlyList<GainReduction> reductions) =>
        string.Join("; ", reductions.Select(r => $"{r.Processor}: median {Words.Number(r.MedianDb)}, most {Words.Number(r.LargestDb)} dB"));
}
