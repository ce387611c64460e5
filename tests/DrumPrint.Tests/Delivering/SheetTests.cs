using System.Diagnostics;
using DrumPrint.Chains;
using DrumPrint.Delivering;
using DrumPrint.Delivering.Sheet;
using DrumPrint.Dsp.Processors;
using DrumPrint.Tests.Support;
using PdfSharp.Pdf.IO;
using UglyToad.PdfPig;

namespace DrumPrint.Tests.Delivering;

public sealed class SheetTests : IDisposable
{
    private static readonly string[] Said =
    [
        "Close but dented.", "the drummer's", "The body of <it>.", "must keep", "leave out first", "Glue, no more.", "0.1 m from the head",
        "Polarity turned over against the recording: a.", "Moved later against the recording: b by 1.5 ms", "compressor: topology", "not in the unity sum",
        "Contact: mail@example.org", "turn the volume down first", "It does not prove that the mix is good.", "sha256sum -c",
    ];

    private readonly DeliverySession _session = new();

    public SheetTests() => _session.TakeDelivered();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void The_text_says_all_that_a_mixer_must_know() => AssertSays(Unbroken(File.ReadAllText(Sheet("txt"))), t => t);

    [Fact]
    public void The_page_says_the_same_and_asks_for_nothing_from_elsewhere()
    {
        var html = File.ReadAllText(Sheet("html"));

        AssertSays(html, System.Net.WebUtility.HtmlEncode);
        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("http:", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("https:", html, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(2, html.Split("<svg").Length - 1);
    }

    [Fact]
    public void The_pdf_says_the_same_and_a_second_library_opens_it()
    {
        using var pdf = PdfDocument.Open(Sheet("pdf"));
        var text = string.Join(' ', pdf.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text));

        // Cells stand side by side, so only what keeps to a line is looked for whole.
        Assert.All(["Close but dented.", "Glue, no more.", "mail@example.org", "turn the volume down first."], t => Assert.Contains(t, text, StringComparison.Ordinal));
        using var other = PdfReader.Open(Sheet("pdf"), PdfDocumentOpenMode.Import);
        Assert.Equal(pdf.NumberOfPages, other.PageCount);
    }

    [Fact]
    public void Every_letter_of_the_pdf_keeps_within_both_A4_and_Letter()
    {
        // ISO 216: A4 is 595 × 842 points; ANSI/ASME Y14.1: Letter is 612 × 792. Printed at full size about the middle, 25 points go at top and bottom.
        using var pdf = PdfDocument.Open(Sheet("pdf"));

        Assert.All(pdf.GetPages().SelectMany(p => p.Letters), l =>
        {
            Assert.InRange(l.BoundingBox.Left, 18, 577);
            Assert.InRange(l.BoundingBox.Right, 18, 577);
            Assert.InRange(l.BoundingBox.Bottom, 25 + 14, 817 - 14);
            Assert.InRange(l.BoundingBox.Top, 25 + 14, 817 - 14);
        });
    }

    [FactWithTool("pdftotext")]
    public void Pdftotext_accepts_the_pdf()
    {
        using var process = Process.Start(new ProcessStartInfo("pdftotext", [Sheet("pdf"), "-"]) { RedirectStandardOutput = true })!;
        var text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();

        Assert.Equal(0, process.ExitCode);
        Assert.Contains("Close but dented.", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_title_of_any_letters_makes_a_pdf()
    {
        var bytes = SheetPdf.Of(new SheetDocument("Fähre 渡し船 \u2192 Łódź", "“under” − ∞", [new TextBlock(new string('x', 3000))]));

        using var pdf = PdfDocument.Open(bytes);
        Assert.StartsWith("Fahre ??? -> ?", pdf.GetPage(1).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_gain_is_drawn_as_a_flat_line_and_a_compressor_bends_by_its_ratio()
    {
        Stage[] gain = [new(Gain.Definition, Gain.Definition.With((Gain.Definition.Parameters.First(p => p.Key == "level_db"), -6.0)).Settings, null, 0)];
        Assert.All(DrumBusCurves.Response(gain, 48000), p => Assert.Equal(-6, p.Db, 1e-9));
        Assert.All(DrumBusCurves.Static(gain, 48000), p => Assert.Equal(p.InDb - 6, p.OutDb, 1e-6));

        var drumBus = _session.Chain().DrumBus; // 2:1 above −20 dB, then +1 dB
        var curve = DrumBusCurves.Static(drumBus, 48000).ToDictionary(p => p.InDb, p => p.OutDb);
        Assert.Equal(-47, curve[-48], 0.01);
        // Closed form above the knee: half of what goes in. The detector reads peaks; what it lets fall between them is the tolerance.
        Assert.Equal(3, curve[0] - curve[-6], 0.3);
        Assert.Equal(-9, curve[0], 0.8);
    }

    // Closed form of a Butterworth high-pass of second order; the compressor before it lets the soft impulse alone.
    [Fact]
    public void A_high_pass_is_drawn_as_it_falls()
    {
        var drumBus = _session.Chain(edit: b => b.Replace("{ \"gain\": { \"level_db\": 1 } }", "{ \"eq\": { \"bands\": [ { \"high_pass\": { \"freq_hz\": 200 } } ] } }", StringComparison.Ordinal)).DrumBus;

        var curve = DrumBusCurves.Response(drumBus, 48000);

        Assert.Equal(20, curve[0].Hz, 1e-9);
        Assert.All(curve.Where(p => p.Hz < 10000), p => Assert.Equal(-10 * Math.Log10(1 + Math.Pow(200 / p.Hz, 4)), p.Db, 0.1));
    }

    [Fact]
    public void The_law_table_is_what_a_plain_sum_of_the_delivered_files_leaves()
    {
        var manifest = DeliveryManifest.ReadIn(_session.V1);
        var proof = Deliverer.Deliver(_session.Chain(), new DeliveryOptions { To = _session.To, Contact = "mail@example.org" }).Proof;
        var rough = TestSession.ReadFile(Path.Combine(_session.V1, "90_RoughPreBus_Test_v1.wav"));
        var prints = manifest.Files.Where(f => f.Kind == DeliveredKind.Playing).Select(f => TestSession.ReadFile(Path.Combine(_session.V1, f.Name))).ToList();

        Assert.Equal(5, proof.Count);
        Assert.All(proof, line =>
        {
            Assert.True(line.LeftDbfs <= -100, $"{line.Name}: {line.LeftDbfs}");
            Assert.Equal(Left(line.CentreDb + line.CorrectionDb), line.LeftDbfs, 0.01);
            Assert.Equal(Left(line.CentreDb + line.TypedDb), line.LeftTypedDbfs, 0.01);
            Assert.Equal(Left(line.CentreDb), line.LeftBareDbfs, 0.01);
        });
        Assert.Contains(prints, p => p.Length == 1);
        Assert.Contains(prints, p => p.Length == 2);
        Assert.True(proof[2].LeftTypedDbfs > proof[2].LeftDbfs + 20, "A correction of 3.0 dB is not that of an equal-power centre.");

        double Left(double db)
        {
            var gain = Math.Pow(10, db / 20);
            var peak = 0.0;
            for (var c = 0; c < 2; c++)
            {
                for (var n = 0; n < rough[0].Length; n++)
                {
                    peak = Math.Max(peak, Math.Abs(prints.Sum(p => p.Length == 1 ? gain * p[0][n] : p[c][n]) - rough[Math.Min(c, rough.Length - 1)][n]));
                }
            }

            return 20 * Math.Log10(peak);
        }
    }

    private string Sheet(string form) => Path.Combine(_session.V1, $"Test_v1_sheet.{form}");

    private static void AssertSays(string text, Func<string, string> written) => Assert.All(Said, s => Assert.Contains(written(s), text, StringComparison.Ordinal));

    private static string Unbroken(string text) => string.Join(' ', text.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries).Where(w => w != "!"));
}
