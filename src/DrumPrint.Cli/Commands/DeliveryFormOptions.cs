using System.CommandLine;
using DrumPrint.Delivering;

namespace DrumPrint.Cli.Commands;

/// <summary>What lies in a delivery on request, and in what form.</summary>
internal sealed class DeliveryFormOptions
{
    private readonly Option<bool> _dry = new("--with-dry") { Description = "Also the dry twin of every processed print: the same microphones, levels and line-up, no processor." };
    private readonly Option<bool> _raw = new("--with-raw") { Description = "Also the raw tracks, as they were recorded." };
    private readonly Option<bool> _impulses = new("--with-impulses") { Description = "Also the impulses whose licence permits it, as the chain says (pass_on)." };
    private readonly Option<bool> _split = new("--split-stereo") { Description = "Every stereo sound as two mono files, -L and -R." };
    private readonly Option<string?> _bits = BitsOption.Create("Word length the mixer wants. Without it: that of the prints.");
    private readonly Option<int?> _rate = new("--rate") { Description = "Sample rate the mixer wants, in Hz. Without it: that of the prints.", HelpName = "HZ" };

    public void AddTo(Command command)
    {
        command.Options.Add(_dry);
        command.Options.Add(_raw);
        command.Options.Add(_impulses);
        command.Options.Add(_split);
        command.Options.Add(_bits);
        command.Options.Add(_rate);
    }

    public DeliveryOptions Apply(ParseResult parsed, DeliveryOptions options) => options with
    {
        WithDry = parsed.GetValue(_dry),
        WithRaw = parsed.GetValue(_raw),
        WithImpulses = parsed.GetValue(_impulses),
        SplitsStereo = parsed.GetValue(_split),
        RateHz = parsed.GetValue(_rate),
        Encoding = BitsOption.Of(parsed, _bits),
    };
}
