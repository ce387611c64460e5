using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Delivering.Sheet;
using DrumPrint.Language;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>Says on one sheet what a mixer must know of a delivery.</summary>
internal sealed class SheetBuilder
{
    /// <summary>How the line of the plain text begins that names the version; the check of a received folder looks for it.</summary>
    public const string VersionStart = "- Version: ";

    /// <summary>How the line of the plain text begins that names the length.</summary>
    public const string LengthStart = "- Length: ";

    private const string Caution = "Before you listen: turn the volume down first. Crushed tracks carry more energy than their peaks suggest.";

    private readonly SheetFacts _facts;
    private readonly DeliveryManifest _manifest;
    private readonly Chain _chain;
    private readonly List<SheetBlock> _blocks = [];

    private SheetBuilder(SheetFacts facts)
    {
        _facts = facts;
        _manifest = facts.Manifest;
        _chain = facts.Chain;
    }

    public static SheetDocument Build(SheetFacts facts)
    {
        var builder = new SheetBuilder(facts);
        builder.Head();
        builder._blocks.AddRange(SheetChanges.Of(facts.Manifest));
        builder.HowToCheck();
        builder._blocks.AddRange(SheetPrints.Of(facts));
        builder._blocks.AddRange(SheetRequested.Of(facts));
        builder.PanLaw();
        builder._blocks.AddRange(SheetDrumBus.Of(facts));
        builder.PolarityAndTime();
        builder.Microphones();
        builder.Recipes();
        builder.Findings();
        builder.SignedOff();
        builder.Contact();
        return new SheetDocument(
            facts.Chain.Song.Title,
            string.Create(CultureInfo.InvariantCulture, $"Drum tracks for the mix, version {facts.Manifest.Version}. {VersionLine(facts.Manifest)}"),
            builder._blocks);
    }

    /// <summary>The length as it stands on the sheet.</summary>
    public static string Length(DeliveryManifest manifest) => string.Create(
        CultureInfo.InvariantCulture, $"{manifest.Frames} frames, {(double)manifest.Frames / manifest.RateHz:0.000} s, every file alike");

    private static string VersionLine(DeliveryManifest manifest) =>
        string.Create(CultureInfo.InvariantCulture, $"{manifest.Files.Count(f => f.Kind == DeliveredKind.Playing)} playing files that add up to the rough with every fader at 0.");

    private void Head()
    {
        _blocks.Add(new HeadingBlock("The song"));
        if (_chain.Song.Notes is { } notes)
        {
            _blocks.Add(new TextBlock(notes));
        }

        _blocks.Add(new ListBlock(
        [
            $"Version: v{SheetWords.Text(_manifest.Version)}",
            $"Length: {Length(_manifest)}",
            $"Rate and depth: {SheetWords.Text(_manifest.RateHz)} Hz, {EncodingWord(_manifest.Encoding)}{Converted()}",
            .. _manifest.Files.Any(f => f.Side != SoundSide.Whole) ? ["Stereo: two mono files for each stereo sound, -L to go hard left, -R hard right; their samples are those of the stereo file"] : Array.Empty<string>(),
            $"Left and right: {_chain.Song.Perspective switch { Perspective.Drummer => "the drummer's", Perspective.Audience => "those of whoever faces the kit", _ => "the chain does not say whose they are" }}",
            $"Tempo: {TempoWords()}",
        ]));
    }

    private string Converted() => _manifest is { PrintedRateHz: null, PrintedBits: null } ? ""
        : $"; printed at {SheetWords.Text(_chain.Song.RateHz)} Hz, {EncodingWord(_facts.Ticket.Encoding)}, and converted for this delivery. All that is measured here was measured after that";

    private string TempoWords()
    {
        if (_facts.Tempo is not { } tempo)
        {
            return "the chain names no tempo map";
        }

        var tempi = tempo.Stretches.Select(s => Show.Number(s.Bpm)).Distinct().ToList();
        var metres = tempo.Stretches.Select(s => $"{SheetWords.Text(s.Beats)}/{SheetWords.Text(s.BeatUnit)}").Distinct().ToList();
        return $"{Show.Some(tempi)} BPM, {Show.Some(metres)}; bars {SheetWords.Text(tempo.FirstBar)} to {SheetWords.Text(tempo.LastBar)}. Frame 0 is the start of bar {SheetWords.Text(tempo.FirstBar)}. The tempo files hold every bar";
    }

    private void HowToCheck()
    {
        _blocks.Add(new HeadingBlock("How to check it, in three lines"));
        _blocks.Add(new NoticeBlock(Caution));
        var playing = _manifest.Of(DeliveredKind.Playing);
        var rough = _manifest.First(DeliveredKind.Rough);
        var items = new List<string>
        {
            $"Put {SheetWords.Text(playing[0].Number!.Value, "00")} to {SheetWords.Text(playing[^1].Number!.Value, "00")} on tracks that start at the same place: faders at 0, mono files centred, {(_manifest.Files.Any(f => f.Side != SoundSide.Whole) ? "-L files hard left, -R files hard right" : "stereo files hard left and right")}.",
        };
        if (rough is not null && _facts.Proof.Count > 0)
        {
            items.Add($"Add {SheetWords.Text(rough.Number!.Value, "00")} with its polarity turned over. You should hear nothing: what is left peaks at {SheetWords.Level(_facts.Proof.Min(p => p.LeftDbfs))} dBFS. If you raised anything to hear it, put that back before you turn the polarity back.");
        }

        items.Add("If it is not silent, look up your pan law below. That every byte arrived: sha256sum -c SHA256SUMS, or drumprint deliver --check and the folder.");
        _blocks.Add(new ListBlock(items, IsNumbered: true));
        _blocks.Add(new TextBlock("This proves that the files add up to the rough. It does not prove that the mix is good."));
    }

    private void PanLaw()
    {
        _blocks.Add(new HeadingBlock("Pan law and proof of unity"));
        var mono = _manifest.Of(DeliveredKind.Playing).Where(f => f is { Sound.Channels: 1, Side: SoundSide.Whole }).Select(f => SheetWords.Text(f.Number!.Value, "00")).ToList();
        _blocks.Add(new TextBlock($"The rough takes a centred mono file at {Words.Number(_chain.Song.PanLawDb)} dB on each side. Mono files: {(mono.Count == 0 ? "none, so no pan law matters" : string.Join(" ", mono))}."));
        if (_facts.Proof.Count == 0)
        {
            _blocks.Add(new TextBlock("There is no rough before the drum bus in this delivery, so nothing was there to measure the sum against."));
            return;
        }

        _blocks.Add(new TextBlock("If your mixer turns centred mono files down, raise every mono file by the correction. Measured from the delivered files, read back: the sum less the rough, its peak in dBFS."));
        _blocks.Add(SheetWords.Table(
            [new("Centre of your pan law", 4), new("Exactly", 2, true), new("Raise mono by", 2.4, true), new("Left then", 2, true), new("Rounded", 2, true), new("Left then", 2, true), new("Left without", 2, true)],
            [.. _facts.Proof.Select(p => (IReadOnlyList<string>)[p.Name, Words.Number(p.CentreDb, 4), Words.Signed(p.CorrectionDb, 4), SheetWords.Level(p.LeftDbfs), Words.Signed(p.TypedDb), SheetWords.Level(p.LeftTypedDbfs), SheetWords.Level(p.LeftBareDbfs)])]));
        _blocks.Add(new TextBlock("An equal-power centre is −3.0103 dB, not −3: a correction rounded to a tenth leaves what stands beside it. That is soft enough to mix on; it is no proof."));
    }

    private void PolarityAndTime()
    {
        _blocks.Add(new HeadingBlock("Polarity and time"));
        var turned = _chain.Tracks.Where(t => t.IsInverted).Select(t => t.Name).ToList();
        var moved = _chain.Tracks.Where(t => t.Delay.Amount > 0).Select(t => $"{t.Name} by {DelayWords(t.Delay)}").ToList();
        var early = _chain.Tracks.Where(t => t.LatencyMs > 0).Select(t => $"{t.Name} by {Show.Number(t.LatencyMs)} ms").ToList();
        var inFeeds = _chain.Buses.SelectMany(b => b.Feeds.Where(f => f.IsInverted || f.Delay.Amount > 0)
            .Select(f => $"{f.Source} in {b.Name} ({string.Join(", ", new[] { f.IsInverted ? "polarity turned over" : null, f.Delay.Amount > 0 ? $"later by {DelayWords(f.Delay)}" : null }.OfType<string>())})")).ToList();
        var items = new List<string>
        {
            "Every file begins at the same frame and has the same length. Processing delay was taken out, so the files lie beside each other to the frame.",
            turned.Count == 0 ? "No microphone's polarity was turned over." : $"Polarity turned over against the recording: {string.Join(", ", turned)}.",
            moved.Count == 0 ? "No microphone was moved in time." : $"Moved later against the recording: {string.Join(", ", moved)}. All others lie as they were recorded.",
        };
        if (early.Count > 0)
        {
            items.Add($"Moved earlier by what they came back late from outside gear, before any delay: {string.Join(", ", early)}.");
        }

        if (inFeeds.Count > 0)
        {
            items.Add($"Only where they feed these buses: {string.Join("; ", inFeeds)}.");
        }

        _blocks.Add(new ListBlock(items));
    }

    private static string DelayWords(PathDelay delay) => $"{Show.Number(delay.Amount)} {Dsp.Parameters.UnitText.Symbol(delay.Unit)}";

    private void Microphones()
    {
        _blocks.Add(new HeadingBlock("Microphones"));
        var hasNotes = _chain.Tracks.Any(t => t.Notes is not null || t.At is not null);
        var inputs = _facts.Ticket.Tracks.Select(t => t.Name).ToHashSet(StringComparer.Ordinal);
        _blocks.Add(SheetWords.Table(
            [new("Microphone", 3), new("Raw file", 4), new("Polarity", 1.6), new("Moved", 1.6), .. hasNotes ? [new SheetColumn("Where it stood", 5)] : Array.Empty<SheetColumn>()],
            [.. _chain.Tracks.Select(t => (IReadOnlyList<string>)
            [
                t.Name,
                string.Join(", ", t.Files.Select(f => Path.GetFileName(f))) + (t.Channel is { } channel ? $", channel {channel}" : "") + (inputs.Contains(t.Name) ? "" : " (not heard)"),
                t.IsInverted ? "inverted" : "as recorded",
                string.Join(", ", new[] { t.Delay.Amount > 0 ? DelayWords(t.Delay) : null, t.LatencyMs > 0 ? $"{Show.Number(t.LatencyMs)} ms earlier" : null }.OfType<string>()),
                .. hasNotes ? [Where(t)] : Array.Empty<string>(),
            ])]));
        if (!hasNotes)
        {
            _blocks.Add(new TextBlock("The chain gives no positions."));
        }
    }

    private static string Where(Track track) => string.Join("; ", new[] { track.Notes, track.At is { } at ? $"at {Show.Number(at.XM)}, {Show.Number(at.YM)}, {Show.Number(at.ZM)} m" : null }.OfType<string>());

    private void Recipes()
    {
        _blocks.Add(new HeadingBlock("How each file was made"));
        _blocks.Add(new TextBlock("Buses in the order of the chain: what feeds each, then its processors in order with every value. The ticket in this folder holds the same for a program."));
        _blocks.Add(new ListBlock([.. _chain.Buses.Select(b =>
            $"{b.Name}: from {string.Join(", ", b.Feeds.Select(f => $"{f.Source} {Words.Signed(f.LevelDb)} dB{(f.PanPct is { } pan ? $" panned {(pan < 0 ? "left" : pan > 0 ? "right" : "centre")} {Show.Number(Math.Abs(pan))} %" : "")}{(f.Rides.Count > 0 ? " (ridden)" : "")}"))}. {(b.Stages.Count == 0 ? "No processing." : string.Join(". ", b.Stages.Select(StageWords.Of)) + ".")}")]));
        _blocks.Add(new ListBlock([.. _chain.Prints.Select(p => $"{SheetWords.Text(p.Number, "00")} {p.Name} is {p.Bus} at {Words.Signed(p.LevelDb)} dB{(_facts.Ticket.TrimDb == 0 ? "" : $", and {Words.Signed(_facts.Ticket.TrimDb, 2)} dB like all others")}")]));
    }

    private void Findings()
    {
        if (_facts.Ticket.Findings.Count + _facts.Ticket.Notes.Count == 0)
        {
            return;
        }

        _blocks.Add(new HeadingBlock("What was there to look at when it was printed"));
        _blocks.Add(new ListBlock([.. _facts.Ticket.Findings, .. _facts.Ticket.Notes]));
    }

    private void SignedOff()
    {
        if (_chain.Accepted.Count > 0)
        {
            _blocks.Add(new HeadingBlock("Meant to be so"));
            _blocks.Add(new TextBlock("The check before the hand-over told of these, and they were signed off with a reason."));
            _blocks.Add(new ListBlock([.. _chain.Accepted.Select(a => $"{a.Rule}{(a.Track is null ? "" : $", {a.Track}")}: {a.Why}")]));
        }
    }

    private void Contact()
    {
        var lines = new List<string>();
        if (_facts.Credit is { } credit)
        {
            lines.Add($"Credit: {credit}");
        }

        if (_facts.Contact is { } contact)
        {
            lines.Add($"Contact: {contact}");
        }

        lines.Add($"Made with DrumPrint {_manifest.Engine}. Chain {_manifest.ChainSha256[..16]}.");
        _blocks.Add(new HeadingBlock("Credit and contact"));
        _blocks.Add(new ListBlock(lines));
    }

    internal static string EncodingWord(SampleEncoding encoding) => encoding switch
    {
        SampleEncoding.Pcm16 => "16-bit",
        SampleEncoding.Pcm24 => "24-bit",
        SampleEncoding.Float32 => "32-bit float",
        _ => $"{encoding.Bits().ToString(CultureInfo.InvariantCulture)}-bit",
    };
}
