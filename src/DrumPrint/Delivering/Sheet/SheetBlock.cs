namespace DrumPrint.Delivering.Sheet;

/// <summary>A piece of a sheet; all three forms of the sheet are written from the same pieces.</summary>
internal abstract record SheetBlock;

/// <summary>The head of a section.</summary>
internal sealed record HeadingBlock(string Text) : SheetBlock;

/// <summary>A paragraph.</summary>
internal sealed record TextBlock(string Text) : SheetBlock;

/// <summary>A paragraph that must not be overlooked.</summary>
internal sealed record NoticeBlock(string Text) : SheetBlock;

/// <summary>Lines, numbered or not.</summary>
internal sealed record ListBlock(IReadOnlyList<string> Items, bool IsNumbered = false) : SheetBlock;

/// <summary>A table.</summary>
/// <param name="Columns">Its columns.</param>
/// <param name="Rows">Cells, row by row.</param>
internal sealed record TableBlock(IReadOnlyList<SheetColumn> Columns, IReadOnlyList<IReadOnlyList<string>> Rows) : SheetBlock;

/// <summary>A column.</summary>
/// <param name="Head">Its head.</param>
/// <param name="Share">Its part of the width, beside the others'.</param>
/// <param name="IsNumber">Whether it stands to the right.</param>
internal sealed record SheetColumn(string Head, double Share, bool IsNumber = false);

/// <summary>A curve.</summary>
/// <param name="Title">What it shows.</param>
/// <param name="X">Across.</param>
/// <param name="Y">Up.</param>
/// <param name="Points">The curve, in the axes' units.</param>
/// <param name="ReferenceLine">A line it is seen against; null for none.</param>
internal sealed record CurveBlock(string Title, SheetAxis X, SheetAxis Y, IReadOnlyList<(double X, double Y)> Points, IReadOnlyList<(double X, double Y)>? ReferenceLine) : SheetBlock;

/// <summary>An axis.</summary>
/// <param name="Name">Quantity and unit.</param>
/// <param name="From">Lowest value.</param>
/// <param name="To">Highest value.</param>
/// <param name="Marks">Values with their words.</param>
/// <param name="IsLogarithmic">Whether equal ratios are equally far apart.</param>
internal sealed record SheetAxis(string Name, double From, double To, IReadOnlyList<(double At, string Word)> Marks, bool IsLogarithmic = false)
{
    /// <summary>Where a value lies, 0 to 1.</summary>
    public double Place(double value)
    {
        var place = IsLogarithmic
            ? Dsp.Numerics.Elementary.Log(value / From) / Dsp.Numerics.Elementary.Log(To / From)
            : (value - From) / (To - From);
        return Math.Clamp(place, 0, 1);
    }
}

/// <summary>A sheet: what it is called and what stands on it.</summary>
internal sealed record SheetDocument(string Title, string Under, IReadOnlyList<SheetBlock> Blocks);
