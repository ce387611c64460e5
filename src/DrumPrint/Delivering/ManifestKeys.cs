using DrumPrint.Chains.Format;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>The keys of a manifest.</summary>
internal static class ManifestKeys
{
    /// <summary>The format this version reads and writes.</summary>
    public const int Format = 1;

    private const double Most = 1e15;

    public static readonly NumberParameter Delivery = new("delivery", Unit.None, Format, Format, null, "Format of this file.") { IsWhole = true, IsRequired = true };

    public static readonly TextParameter Engine = new("engine", TextKind.Title, "Version of the program that delivered.") { IsRequired = true };

    public static readonly TextParameter Title = new("title", TextKind.Title, "Title of the song.") { IsRequired = true };

    public static readonly TextParameter Code = new("code", TextKind.FileNamePart, "Short form of the title used in file names.") { IsRequired = true };

    public static readonly NumberParameter Version = new("version", Unit.None, 1, 999, null, "Version of the delivery.") { IsWhole = true, IsRequired = true };

    public static readonly NumberParameter Rate = new("rate_hz", Unit.Hertz, 8000, 384000, null, "Sample rate of every sound.") { IsWhole = true, IsRequired = true };

    public static readonly NumberParameter Frames = new("frames", Unit.None, 0, Most, null, "Length of every sound.") { IsWhole = true, IsRequired = true };

    public static readonly TextParameter ChainSha256 = new("chain_sha256", TextKind.Sha256, "Hash of the chain's canonical text.") { IsRequired = true };

    public static readonly NumberParameter PrintedRate = new("printed_rate_hz", Unit.Hertz, 8000, 384000, null, "Sample rate of the prints, where another one was asked for.") { IsWhole = true };

    public static readonly TextParameter PrintedBits = new("printed_bits", TextKind.Title, "Word length of the prints, where another one was asked for.");

    public static readonly NumberParameter SinceVersion = new("since_version", Unit.None, 1, 999, null, "Version of the delivery before.") { IsWhole = true };

    public static readonly TextParameter SinceSha256 = new("since_sha256", TextKind.Sha256, "Hash of the manifest of the delivery before.");

    public static readonly ToggleParameter Part = new("only_changes", false, "Whether the folder holds only what changed since the delivery before.");

    public static readonly TextsParameter Withdrawn = new("withdrawn", "Files of the delivery before that are no more.");

    public static readonly TextsParameter Changes = new("changes", "What was changed since the delivery before.");

    public static readonly NumberParameter WishVersion = new("version", Unit.None, 1, 999, null, "Version that answers it.") { IsWhole = true, IsRequired = true };

    public static readonly TextParameter WishText = new("wish", TextKind.Title, "What was asked for.") { IsRequired = true };

    public static readonly TextsParameter WishChanges = new("changes", "What was changed for it.");

    public static readonly TextParameter WishAnswer = new("answer", TextKind.Title, "What is said to it.");

    public static readonly Shape WishShape = new("a wish", "What the mixer asked for, beside what was changed for it.", [WishVersion, WishText, WishChanges, WishAnswer]);

    public static readonly ShapesParameter Wishes = new("wishes", WishShape, "What the mixer asked for, each beside what was changed for it.");

    public static readonly TextParameter File = new("file", TextKind.Path, "The file beside the manifest.") { IsRequired = true };

    public static readonly ChoiceParameter Kind = new(
        "kind",
        [
            new("playing", "part of the unity sum"),
            new("optional", "an extra, not in the unity sum"),
            new("rough", "the sum of the playing prints"),
            new("rough_with_bus", "the rough through the drum bus"),
            new("click", "clicks on the beats"),
            new("dry", "a print without its processing, not in the unity sum"),
            new("raw", "a raw track, as it was recorded"),
            new("impulse", "an impulse response"),
            new("tempo", "bars, metres and tempi"),
            new("sheet", "the sheet"),
            new("page", "the page on which the files are heard"),
            new("ticket", "how the prints were made"),
        ],
        "playing",
        "What it is.");

    public static readonly NumberParameter Number = new("number", Unit.None, 1, 99, null, "First part of a print's name.") { IsWhole = true };

    public static readonly TextParameter Name = new("name", TextKind.FileNamePart, "Second part of a print's name.");

    public static readonly ChoiceParameter Side = new(
        "side",
        [new("whole", "all there is"), new("left", "the left side of a stereo sound"), new("right", "its right side")],
        "whole",
        "Which side of a stereo sound it holds.");

    public static readonly TextParameter Called = new("called", TextKind.Title, "What the chain calls a raw track or impulse.");

    public static readonly NumberParameter Bytes = new("bytes", Unit.None, 0, Most, null, "Length of the file.") { IsWhole = true, IsRequired = true };

    public static readonly TextParameter FileSha256 = new("file_sha256", TextKind.Sha256, "Hash of the whole file.") { IsRequired = true };

    public static readonly TextParameter AudioSha256 = new("audio_sha256", TextKind.Sha256, "Hash of the sample bytes; other names and headers do not change it.");

    public static readonly NumberParameter Channels = new("channels", Unit.None, 1, 2, null, "Number of channels.") { IsWhole = true };

    public static readonly ChoiceParameter State = new(
        "state",
        [new("unsaid", "there was no delivery before"), new("changed", "other samples than before"), new("unchanged", "the same samples, proved by hash"), new("new", "not there before")],
        "unsaid",
        "What became of it since the delivery before.");

    public static readonly TextsParameter Pieces = new("pieces", "Hash of each whole second, 16 digits each, a minute in a text.");

    public static readonly Shape FileShape = new(
        "a delivered file", "A file of the delivery.", [File, Kind, Number, Name, Side, Called, Bytes, FileSha256, AudioSha256, Channels, State, Pieces]);

    public static readonly ShapesParameter Files = new("files", FileShape, "Every file but the manifest and the list of sums.")
    {
        IsRequired = true,
        WhenEmpty = "there is no file.",
    };

    public static readonly Shape Shape = new(
        "a delivery", "What a delivery holds, file by file.",
        [Delivery, Engine, Title, Code, Version, Rate, Frames, EncodingKeys.Encoding, ChainSha256, PrintedRate, PrintedBits, SinceVersion, SinceSha256, Part, Withdrawn, Changes, Wishes, Files]);

    public static string Word(DeliveredKind kind) => kind switch
    {
        DeliveredKind.Playing => "playing",
        DeliveredKind.Optional => "optional",
        DeliveredKind.Rough => "rough",
        DeliveredKind.RoughWithBus => "rough_with_bus",
        DeliveredKind.Click => "click",
        DeliveredKind.Dry => "dry",
        DeliveredKind.Raw => "raw",
        DeliveredKind.Impulse => "impulse",
        DeliveredKind.Tempo => "tempo",
        DeliveredKind.Sheet => "sheet",
        DeliveredKind.Page => "page",
        _ => "ticket",
    };

    public static string Word(SoundSide side) => side switch
    {
        SoundSide.Left => "left",
        SoundSide.Right => "right",
        _ => "whole",
    };

    public static string Word(DeliveredState state) => state switch
    {
        DeliveredState.Changed => "changed",
        DeliveredState.Unchanged => "unchanged",
        DeliveredState.New => "new",
        _ => "unsaid",
    };
}
