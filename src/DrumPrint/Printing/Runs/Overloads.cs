using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Session;

namespace DrumPrint.Printing.Runs;

/// <summary>What is said, and what would fit, where prints go above 0 dBFS.</summary>
internal static class Overloads
{
    /// <summary>The next lower tenth of a decibel; a hair above a tenth counts as that tenth.</summary>
    public static double Fitting(double db) => Math.Round(Math.Floor((db * 10) + 1e-6) / 10, 1);

    /// <summary>The level of a print that counts, in dB over full scale.</summary>
    public static double Level(RunSetup setup, PrintFigures figures) => setup.Chain.Output.OverAtTruePeak ? figures.TruePeakDb : Decibels.FromGain(figures.Peak);

    /// <summary>Whether a file holds what goes above 0 dBFS: 32-bit float does, and it is told.</summary>
    public static bool MayStay(RunSetup setup) => setup.Encoding.IsFloat() && !setup.Chain.Output.LowerTogether;

    /// <summary>Names every print that goes above 0 dBFS, and what would fit.</summary>
    public static OverloadException Refusal(RunSetup setup, PrintAttempt attempt)
    {
        var over = attempt.Figures.Values.Where(f => Level(setup, f) > 0).OrderBy(f => f.Target.Number).Select(f => Of(setup, f.Target, attempt.TrimDb, Level(setup, f)));
        var advice = setup.Chain.Output.LowerTogether
            ? "Lowering all prints together did not bring it below 0 dBFS. Nothing was written."
            : "Nothing was written. Lower those levels, or say \"over\": \"lower_together\" under output: then all prints are lowered by the same amount.";
        return new OverloadException(string.Join(Environment.NewLine, [.. over, advice]));
    }

    private static string Of(RunSetup setup, PrintTarget target, double trimDb, double db)
    {
        var file = setup.NameOf(target);
        var peaks = setup.Chain.Output.OverAtTruePeak
            ? string.Create(CultureInfo.InvariantCulture, $"{file} has a true peak {db:0.00} dB above 0 dBTP;")
            : string.Create(CultureInfo.InvariantCulture, $"{file} peaks {db:0.00} dB above 0 dBFS;");
        return target switch
        {
            { Print: { } print } => string.Create(CultureInfo.InvariantCulture, $"{setup.Chain.FileOf(FormattableString.Invariant($"prints.{print.Number}"))}:{print.Line}: {peaks} level_db {Fitting(print.LevelDb + trimDb - db):0.0} would fit."),
            { Kind: PrintKind.RoughWithBus } => string.Create(CultureInfo.InvariantCulture, $"{setup.Chain.Path}: {peaks} output.rough_with_bus.level_db {Fitting(setup.Chain.Output.RoughWithBus!.LevelDb - db):0.0} would fit."),
            _ => string.Create(CultureInfo.InvariantCulture, $"{setup.Chain.Path}: {peaks} lowering every print by {-Fitting(trimDb - db):0.0} dB would fit."),
        };
    }
}
