using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using UglyToad.PdfPig.Core;
using UglyToad.PdfPig.Fonts.Standard14Fonts;
using UglyToad.PdfPig.Writer;

namespace DrumPrint.Delivering.Sheet;

/// <summary>Writes a sheet as PDF with the fonts every reader brings along.</summary>
/// <remarks>Pages are A4, and all that stands on them keeps within Letter too, so both print it at full size.</remarks>
internal sealed class SheetPdf : IDisposable
{
    private const double PageWidth = 595;
    private const double PageHeight = 842;
    private const double Left = 48;
    private const double Right = 547;
    private const double Top = 782;
    private const double Bottom = 62;
    private const double Body = 9;
    private const double Small = 7.5;
    private const double Leading = 1.35;
    private const double MeasuredAt = 1000;
    private const int IdDigits = 32;

    private readonly PdfDocumentBuilder _document = new();
    private readonly PdfDocumentBuilder.AddedFont _plain;
    private readonly PdfDocumentBuilder.AddedFont _bold;
    private readonly Dictionary<(char, bool), double> _widths = [];
    private readonly string _title;
    private PdfPageBuilder _page;
    private double _y;

    private SheetPdf(SheetDocument sheet)
    {
        _title = PdfLatin.Of(sheet.Title);
        _document.DocumentInformation.Title = _title;
        _document.DocumentInformation.Producer = "DrumPrint";
        _document.DocumentInformation.CreationDate = null;
        _plain = _document.AddStandard14Font(Standard14Font.Helvetica);
        _bold = _document.AddStandard14Font(Standard14Font.HelveticaBold);
        _page = NewPage();
    }

    public static byte[] Of(SheetDocument sheet)
    {
        using var pdf = new SheetPdf(sheet);
        pdf.Lines(sheet.Title, 18, isBold: true, Left);
        pdf.Lines(sheet.Under, Body, isBold: false, Left);
        foreach (var block in sheet.Blocks)
        {
            pdf._y -= 5;
            pdf.Write(block);
        }

        return Repeatable(pdf._document.Build());
    }

    public void Dispose() => _document.Dispose();

    // The library gives each document a number by chance; one by its content lets the same sheet be the same bytes.
    private static byte[] Repeatable(byte[] pdf)
    {
        var at = pdf.AsSpan().LastIndexOf("/ID [ <"u8);
        if (at < 0)
        {
            return pdf;
        }

        var first = pdf.AsSpan(at + "/ID [ <".Length, IdDigits);
        var second = pdf.AsSpan(at + "/ID [ <".Length + IdDigits + "><".Length, IdDigits);
        first.Fill((byte)'0');
        second.Fill((byte)'0');
        var id = Encoding.ASCII.GetBytes(Convert.ToHexString(SHA256.HashData(pdf)));
        id.AsSpan(0, IdDigits).CopyTo(first);
        id.AsSpan(0, IdDigits).CopyTo(second);
        return pdf;
    }

    private PdfPageBuilder NewPage()
    {
        var page = _document.AddPage(PageWidth, PageHeight);
        _y = Top;
        if (page.PageNumber > 1)
        {
            page.AddText(string.Create(CultureInfo.InvariantCulture, $"{_title} - {page.PageNumber}"), Small, new PdfPoint(Left, Bottom - 18), _plain);
        }

        return page;
    }

    private void Room(double height)
    {
        if (_y - height < Bottom)
        {
            _page = NewPage();
        }
    }

    private void Write(SheetBlock block)
    {
        switch (block)
        {
            case HeadingBlock heading:
                Room(60);
                _y -= 6;
                _page.SetStrokeColor(150, 150, 150);
                _page.DrawLine(new PdfPoint(Left, _y + 4), new PdfPoint(Right, _y + 4), 0.5);
                _page.ResetColor();
                _y -= 6;
                Lines(heading.Text, 12, isBold: true, Left);
                break;
            case TextBlock text:
                Lines(text.Text, Body, isBold: false, Left);
                break;
            case NoticeBlock notice:
                Lines(notice.Text, Body, isBold: true, Left + 8);
                break;
            case ListBlock list:
                for (var i = 0; i < list.Items.Count; i++)
                {
                    Room(Body * Leading);
                    _page.AddText(list.IsNumbered ? string.Create(CultureInfo.InvariantCulture, $"{i + 1}.") : "-", Body, new PdfPoint(Left, _y - Body), _plain);
                    Lines(list.Items[i], Body, isBold: false, Left + 14);
                }

                break;
            case TableBlock table:
                Table(table);
                break;
            case CurveBlock curve:
                Curve(curve);
                break;
        }
    }

    private void Lines(string text, double size, bool isBold, double left)
    {
        foreach (var line in TextWrap.Lines(PdfLatin.Of(text), Right - left, t => Width(t, size, isBold)))
        {
            Room(size * Leading);
            if (line.Length > 0)
            {
                _page.AddText(line, size, new PdfPoint(left, _y - size), isBold ? _bold : _plain);
            }

            _y -= size * Leading;
        }
    }

    private void Table(TableBlock table)
    {
        var whole = table.Columns.Sum(c => c.Share);
        var widths = table.Columns.Select(c => (Right - Left) * c.Share / whole).ToList();
        Row([.. table.Columns.Select(c => c.Head)], table, widths, isBold: true);
        foreach (var row in table.Rows)
        {
            if (Row(row, table, widths, isBold: false, onlyIfItFits: true))
            {
                continue;
            }

            _page = NewPage();
            Row([.. table.Columns.Select(c => c.Head)], table, widths, isBold: true);
            Row(row, table, widths, isBold: false);
        }

        _y -= 4;
    }

    private bool Row(IReadOnlyList<string> cells, TableBlock table, List<double> widths, bool isBold, bool onlyIfItFits = false)
    {
        var lines = cells.Select((c, i) => TextWrap.Lines(PdfLatin.Of(c), widths[i] - 6, t => Width(t, Small, isBold))).ToList();
        var height = (lines.Max(l => l.Count) * Small * Leading) + 4;
        if (_y - height < Bottom)
        {
            if (onlyIfItFits)
            {
                return false;
            }

            Room(height);
        }

        var x = Left;
        for (var i = 0; i < cells.Count; i++)
        {
            var y = _y - Small;
            foreach (var line in lines[i])
            {
                var at = table.Columns[i].IsNumber ? x + widths[i] - 6 - Width(line, Small, isBold) : x;
                if (line.Length > 0)
                {
                    _page.AddText(line, Small, new PdfPoint(at, y), isBold ? _bold : _plain);
                }

                y -= Small * Leading;
            }

            x += widths[i];
        }

        _y -= height;
        _page.SetStrokeColor(190, 190, 190);
        _page.DrawLine(new PdfPoint(Left, _y + 2), new PdfPoint(Right, _y + 2), 0.3);
        _page.ResetColor();
        return true;
    }

    private void Curve(CurveBlock curve)
    {
        const double width = 380;
        const double height = 150;
        Room(height + 50);
        Lines(curve.Title, Body, isBold: false, Left);
        var (left, bottom) = (Left + 30, _y - height - 4);
        _page.SetStrokeColor(200, 200, 200);
        foreach (var (at, word) in curve.X.Marks)
        {
            var x = left + (width * curve.X.Place(at));
            _page.DrawLine(new PdfPoint(x, bottom), new PdfPoint(x, bottom + height), 0.4);
            var text = PdfLatin.Of(word);
            _page.AddText(text, Small, new PdfPoint(x - (Width(text, Small, isBold: false) / 2), bottom - 10), _plain);
        }

        foreach (var (at, word) in curve.Y.Marks)
        {
            var y = bottom + (height * curve.Y.Place(at));
            _page.DrawLine(new PdfPoint(left, y), new PdfPoint(left + width, y), 0.4);
            var text = PdfLatin.Of(word);
            _page.AddText(text, Small, new PdfPoint(left - 5 - Width(text, Small, isBold: false), y - 2.5), _plain);
        }

        _page.SetStrokeColor(120, 120, 120);
        if (curve.ReferenceLine is { } line)
        {
            Path(curve, line, left, bottom, width, height, 0.6);
        }

        _page.ResetColor();
        Path(curve, curve.Points, left, bottom, width, height, 1.4);
        _page.AddText(PdfLatin.Of($"{curve.X.Name} across, {curve.Y.Name} up"), Small, new PdfPoint(left, bottom - 21), _plain);
        _y = bottom - 30;
    }

    private void Path(CurveBlock curve, IReadOnlyList<(double X, double Y)> points, double left, double bottom, double width, double height, double pen)
    {
        for (var i = 1; i < points.Count; i++)
        {
            _page.DrawLine(At(points[i - 1]), At(points[i]), pen);
        }

        PdfPoint At((double X, double Y) p) => new(left + (width * curve.X.Place(p.X)), bottom + (height * curve.Y.Place(p.Y)));
    }

    private double Width(string text, double size, bool isBold) => text.Sum(c => Width(c, isBold)) * size / MeasuredAt;

    private double Width(char c, bool isBold)
    {
        if (!_widths.TryGetValue((c, isBold), out var width))
        {
            width = _page.MeasureText(c.ToString(), MeasuredAt, new PdfPoint(0, 0), isBold ? _bold : _plain).Sum(l => l.EndBaseLine.X - l.StartBaseLine.X);
            _widths.Add((c, isBold), width);
        }

        return width;
    }
}
