using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp.Resampling;
using DrumPrint.Language;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>In what form sounds are delivered: as printed, or as a mixer asked for them.</summary>
/// <param name="RateHz">Sample rate.</param>
/// <param name="Encoding">Word length.</param>
/// <param name="SplitsStereo">Whether a stereo sound becomes two mono files.</param>
internal sealed record DeliveredForm(int RateHz, SampleEncoding Encoding, bool SplitsStereo)
{
    /// <summary>What options ask for.</summary>
    /// <exception cref="UsageException">The rate is out of range.</exception>
    public static DeliveredForm Of(Ticket ticket, DeliveryOptions options) => options.RateHz is < RateConverter.LowestHz or > RateConverter.HighestHz
        ? throw new UsageException($"--rate {Show.Number(options.RateHz!.Value)}: a rate is {Show.Number(RateConverter.LowestHz)} to {Show.Number(RateConverter.HighestHz)} Hz, such as 44100 or 96000.")
        : new DeliveredForm(options.RateHz ?? ticket.Chain.Song.RateHz, options.Encoding ?? ticket.Encoding, options.SplitsStereo);

    /// <summary>Whether prints are delivered to the byte as they are.</summary>
    public bool IsAsPrinted(Ticket ticket) => !SplitsStereo && RateHz == ticket.Chain.Song.RateHz && Encoding == ticket.Encoding;

    /// <summary>Length of a sound in this form.</summary>
    public long Frames(Ticket ticket) => RateConverter.OutputFrames(ticket.Frames, ticket.Chain.Song.RateHz, RateHz);

    /// <summary>The song at this rate.</summary>
    public Song At(Song song) => song with { RateHz = RateHz };
}
