using DrumPrint.Session;

namespace DrumPrint.Cli.Output;

/// <summary>Reports on the spot, from whichever thread, unlike <see cref="Progress{T}"/>.</summary>
internal sealed class ToldProgress(Action<string, double> report) : IProgress<PrintProgress>
{
    public void Report(PrintProgress value) => report(value.Activity, value.Part);
}
