using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp.Processors;
using DrumPrint.Files;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>Reads manifests. They come from others: every name in one must be a file beside it, and nothing in it may grow without bound.</summary>
internal static class ManifestReader
{
    // A hundred sounds of an hour each, with a hash for each second, take six million digits.
    private const long MostBytes = 8 << 20;
    private const int MostFiles = 400;
    private const int PieceDigits = SoundSums.PieceDigits;

    public static DeliveryManifest Read(string path)
    {
        if (new FileInfo(path).LinkTarget is not null)
        {
            throw new DeliveryException($"{path} is a link, and could lead anywhere. A manifest is a file of its own.");
        }

        byte[] utf8;
        try
        {
            utf8 = RegularFile.ReadAll(path, MostBytes);
        }
        catch (Exception e) when (e is IrregularFileException || FileErrors.Are(e))
        {
            throw new DeliveryException($"{path}: this manifest cannot be read: {FileReason.Of(e)}.", e);
        }

        return Parse(utf8, path);
    }

    public static DeliveryManifest Parse(byte[] utf8, string path)
    {
        var problems = new ProblemList(path);
        var values = FormFile.Read(utf8, ManifestKeys.Shape, ManifestKeys.Delivery, "manifest", new FormReader(problems, Catalogue.All), problems);
        try
        {
            problems.ThrowIfAny();
        }
        catch (ChainException e)
        {
            throw new DeliveryException(e.Message, e);
        }

        var manifest = Manifest(values!);
        Check(manifest, path);
        return manifest;
    }

    private static DeliveryManifest Manifest(Values values)
    {
        var frames = (long)values.Number(ManifestKeys.Frames)!.Value;
        var encoding = EncodingKeys.Of(values);
        return new DeliveryManifest
        {
            Engine = values.Text(ManifestKeys.Engine)!,
            Title = values.Text(ManifestKeys.Title)!,
            Code = values.Text(ManifestKeys.Code)!,
            Version = values.Whole(ManifestKeys.Version),
            RateHz = values.Whole(ManifestKeys.Rate),
            Frames = frames,
            Encoding = encoding,
            ChainSha256 = values.Text(ManifestKeys.ChainSha256)!,
            PrintedRateHz = (int?)values.Number(ManifestKeys.PrintedRate),
            PrintedBits = values.Text(ManifestKeys.PrintedBits),
            SinceVersion = (int?)values.Number(ManifestKeys.SinceVersion),
            SinceSha256 = values.Text(ManifestKeys.SinceSha256),
            IsPart = values.IsOn(ManifestKeys.Part),
            Withdrawn = values.Texts(ManifestKeys.Withdrawn),
            Changes = values.Texts(ManifestKeys.Changes),
            Wishes = [.. values.Entries(ManifestKeys.Wishes).Select(w => new AnsweredWish(
                w.Whole(ManifestKeys.WishVersion), w.Text(ManifestKeys.WishText)!, w.Texts(ManifestKeys.WishChanges), w.Text(ManifestKeys.WishAnswer)))],
            Files = [.. values.Entries(ManifestKeys.Files).Select(f => File(f, frames, encoding))],
        };
    }

    private static DeliveredFile File(Values file, long frames, Audio.SampleEncoding encoding)
    {
        var word = file.Word(ManifestKeys.Kind);
        var kind = Enum.GetValues<DeliveredKind>().First(k => ManifestKeys.Word(k) == word);
        var isSource = kind is DeliveredKind.Raw or DeliveredKind.Impulse;
        var (state, side) = (file.Word(ManifestKeys.State), file.Word(ManifestKeys.Side));
        return new DeliveredFile(
            file.Text(ManifestKeys.File)!,
            kind,
            (long)file.Number(ManifestKeys.Bytes)!.Value,
            file.Text(ManifestKeys.FileSha256)!)
        {
            Number = (int?)file.Number(ManifestKeys.Number),
            Title = file.Text(ManifestKeys.Name),
            State = Enum.GetValues<DeliveredState>().First(s => ManifestKeys.Word(s) == state),
            Side = Enum.GetValues<SoundSide>().First(s => ManifestKeys.Word(s) == side),
            Called = file.Text(ManifestKeys.Called),
            SourceSha256 = isSource ? file.Text(ManifestKeys.AudioSha256) : null,
            Sound = !isSource && file.Text(ManifestKeys.AudioSha256) is { } audio
                ? new DeliveredSound((int?)file.Number(ManifestKeys.Channels) ?? 1, frames, encoding, audio, string.Concat(file.Texts(ManifestKeys.Pieces)))
                : null,
        };
    }

    private static bool IsSound(DeliveredKind kind) => kind is DeliveredKind.Playing or DeliveredKind.Optional or DeliveredKind.Rough or DeliveredKind.RoughWithBus or DeliveredKind.Click or DeliveredKind.Dry;

    private static void Check(DeliveryManifest manifest, string path)
    {
        if (manifest.Files.Count > MostFiles)
        {
            throw new DeliveryException(string.Create(CultureInfo.InvariantCulture, $"{path}: files: there are {manifest.Files.Count} of them; a delivery holds {MostFiles} at most."));
        }

        var names = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var file in manifest.Files)
        {
            if (!ReceivedName.IsBare(file.Name))
            {
                throw new DeliveryException($"{path}: files: '{file.Name}' is no file name by itself. A manifest names the files that lie beside it, such as 01_Kick_Song_v1.wav.");
            }

            if (!names.Add(file.Name))
            {
                throw new DeliveryException($"{path}: files: {file.Name} stands there twice.");
            }

            if (IsSound(file.Kind) ? file is not { Number: not null, Title: not null, Sound: not null } : file.Number is null != file.Title is null)
            {
                throw new DeliveryException($"{path}: files: {file.Name} lacks {ManifestKeys.Number.Key}, {ManifestKeys.Name.Key} or {ManifestKeys.AudioSha256.Key}; every sound of a delivery has all three.");
            }

            if (file.Sound is { Pieces: var pieces } && (pieces.Length % PieceDigits != 0 || pieces.Length / PieceDigits > manifest.Frames / manifest.RateHz || !pieces.All(char.IsAsciiHexDigitLower)))
            {
                throw new DeliveryException($"{path}: files: the pieces of {file.Name} are no hashes of its seconds.");
            }
        }

        if (manifest.IsPart && manifest.SinceVersion is null)
        {
            throw new DeliveryException($"{path}: {ManifestKeys.Part.Key} is on, but {ManifestKeys.SinceVersion.Key} does not say since when.");
        }
    }
}
