using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Files;
using DrumPrint.Printing;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>Renders the dry twin of every processed print: the same microphones, levels, pans, rides, polarity and line-up, and no processor.</summary>
/// <remarks>Where nothing but feeds made a print, it is its own dry twin.</remarks>
internal static class DryTwins
{
    /// <summary>The prints that have one.</summary>
    public static IReadOnlyList<Print> Of(Chain chain)
    {
        var processed = chain.Buses.Where(b => b.Stages.Count > 0).Select(b => b.Name).ToHashSet(StringComparer.Ordinal);
        return [.. chain.Prints.Where(p => FeedingBuses.Of(chain, p.Bus).Any(processed.Contains))];
    }

    /// <summary>Renders them to a folder, in 32-bit float, as long as the prints and lowered with them.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="ticket">Its ticket.</param>
    /// <param name="folder">The folder.</param>
    /// <param name="reading">Which files the chain may name.</param>
    /// <param name="steps">Writes them.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The file of each print, by its number.</returns>
    public static IReadOnlyDictionary<int, string> Render(Chain chain, Ticket ticket, string folder, ReadPolicy reading, FileSteps steps, Action<double> progress, CancellationToken cancel)
    {
        var dry = Chain(chain, Of(chain));
        var options = new PrintOptions
        {
            OutFolder = folder,
            Encoding = SampleEncoding.Float32,
            Reading = reading,
            Steps = steps,
            Settled = new SettledRun(ticket.Frames, ticket.TrimDb, new Dictionary<string, string>(StringComparer.Ordinal)),
        };
        SessionPrinter.Print(dry, options, new Told(progress), cancel);
        return dry.Prints.ToDictionary(p => p.Number, p => Path.Combine(folder, PrintFileName.Of(p.Number, p.Name, dry.Song)));
    }

    /// <summary>A chain of the same feeds without a processor.</summary>
    internal static Chain Chain(Chain chain, IReadOnlyList<Print> prints) => chain with
    {
        Buses = [.. chain.Buses.Select(b => b with { Stages = [], OffStages = [] })],
        Prints = prints,
        Impulses = [],
        DrumBus = [],
        OffDrumBus = [],
        Output = chain.Output with { Rough = null, RoughWithBus = null, Click = null },
        Delivery = DeliverySettings.None,
    };

    private sealed class Told(Action<double> progress) : IProgress<PrintProgress>
    {
        public void Report(PrintProgress value) => progress(value.Part);
    }
}
