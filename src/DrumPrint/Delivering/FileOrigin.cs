using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Files;
using DrumPrint.Language;

namespace DrumPrint.Delivering;

/// <summary>A delivered file that a sound came from.</summary>
/// <param name="Folder">The delivery's folder.</param>
/// <param name="Manifest">Its manifest.</param>
/// <param name="File">The file.</param>
/// <param name="How">What was done to it since, in a sentence.</param>
/// <param name="IsWhole">Whether all its samples are there.</param>
public sealed record FileOrigin(string Folder, DeliveryManifest Manifest, DeliveredFile File, string How, bool IsWhole)
{
    private const int MostFolders = 10_000;

    /// <summary>Finds where a sound file came from, by its samples. The file may be renamed or cut at the end. It may have
    /// another header, or another encoding that holds the same numbers.</summary>
    /// <param name="path">The sound file.</param>
    /// <param name="folders">Deliveries, or folders of deliveries.</param>
    /// <param name="passedOver">Told of each delivery that cannot be read, in a sentence: the file may have come from it.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Whole matches first, then by folder; none when it came from nowhere known.</returns>
    /// <exception cref="AudioFileException">The file cannot be read.</exception>
    /// <exception cref="DeliveryException">No folder holds a delivery.</exception>
    public static IReadOnlyList<FileOrigin> Find(string path, IReadOnlyList<string> folders, Action<string>? passedOver = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(folders);
        var deliveries = folders.SelectMany(f => Deliveries(f, passedOver)).DistinctBy(d => Path.GetFullPath(d.Folder)).ToList();
        if (deliveries.Count == 0)
        {
            throw new DeliveryException($"{Show.Some(folders)}: there is no delivery here nor in the folders one step below. Name folders that hold a file ending in {DeliveryManifest.End}.");
        }

        var found = new List<FileOrigin>();
        foreach (var encoding in deliveries.Select(d => d.Manifest.Encoding).Distinct())
        {
            var candidate = Candidate.Of(path, encoding, cancel);
            foreach (var (folder, manifest) in deliveries.Where(d => d.Manifest.Encoding == encoding))
            {
                found.AddRange(manifest.Files.Where(f => f.Sound is not null).Select(f => candidate.From(f, folder, manifest)).OfType<FileOrigin>());
            }
        }

        var audio = FileHash.AudioSha256(path, cancel);
        found.AddRange(deliveries.SelectMany(d => d.Manifest.Files.Where(f => f.SourceSha256 == audio).Select(f => new FileOrigin(
            d.Folder, d.Manifest, f, $"It is {(f.Kind == DeliveredKind.Raw ? "the raw track" : "the impulse")} {f.Called}; all samples are the same.", true))));
        return [.. found.OrderByDescending(o => o.IsWhole).ThenBy(o => o.Folder, StringComparer.Ordinal).ThenBy(o => o.File.Name, StringComparer.Ordinal)];
    }

    private static IEnumerable<(string Folder, DeliveryManifest Manifest)> Deliveries(string folder, Action<string>? passedOver)
    {
        if (!Directory.Exists(folder))
        {
            throw new DeliveryException($"{folder}: there is no such folder.");
        }

        foreach (var place in Directory.EnumerateDirectories(folder).Take(MostFolders).Where(d => new DirectoryInfo(d).LinkTarget is null && !TemporaryName.Is(Path.GetFileName(d))).Order(StringComparer.Ordinal).Prepend(folder))
        {
            DeliveryManifest manifest;
            try
            {
                if (!Directory.EnumerateFiles(place, "*" + DeliveryManifest.End).Any())
                {
                    continue;
                }

                manifest = DeliveryManifest.ReadIn(place);
            }
            catch (Exception e) when (place != folder && (e is DeliveryException || FileErrors.Are(e)))
            {
                // One that cannot be used does not hide the others.
                passedOver?.Invoke($"{place} was passed over: {(e is DeliveryException ? e.Message : $"it cannot be read: {FileReason.Of(e)}.")}");
                continue;
            }

            yield return (place, manifest);
        }
    }

    private sealed record Candidate(string Name, AudioFileInfo Info, string? AudioSha256, IReadOnlyList<string> Pieces, IReadOnlyList<bool> Sounds)
    {
        public static Candidate Of(string path, SampleEncoding encoding, CancellationToken cancel)
        {
            using var reader = AudioReader.Open(path, AudioHashes.None);
            if (reader.Info.Channels > 2)
            {
                return new Candidate(Path.GetFileName(path), reader.Info, null, [], []);
            }

            using var sums = SoundSums.Of(reader, encoding, cancel);
            return sums.IsExact
                ? new Candidate(Path.GetFileName(path), reader.Info, sums.AudioSha256(), sums.Pieces, sums.Sounds)
                : new Candidate(Path.GetFileName(path), reader.Info, null, [], []);
        }

        public FileOrigin? From(DeliveredFile file, string folder, DeliveryManifest manifest)
        {
            var sound = file.Sound!;
            if (AudioSha256 is null || Info.Channels != sound.Channels || Info.SampleRate != manifest.RateHz)
            {
                return null;
            }

            if (AudioSha256 == sound.AudioSha256)
            {
                return new FileOrigin(folder, manifest, file, $"All samples are the same{Besides(file, manifest)}.", true);
            }

            // A second of silence is alike in all files, so one that sounds must be among them.
            var whole = Math.Min(Pieces.Count, sound.Pieces.Length / SoundSums.PieceDigits);
            var isSame = whole > 0 && Enumerable.Range(0, whole).All(i => sound.Pieces.AsSpan(i * SoundSums.PieceDigits, SoundSums.PieceDigits).SequenceEqual(Pieces[i])) && Sounds.Take(whole).Any(s => s);
            return !isSame || Info.Frames == sound.Frames ? null : new FileOrigin(
                folder,
                manifest,
                file,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{(Info.Frames < sound.Frames ? "It was cut at the end" : "It was lengthened")}: {(double)Info.Frames / Info.SampleRate:0.000} s of {(double)sound.Frames / Info.SampleRate:0.000}; the first {whole} s are the same{Besides(file, manifest)}."),
                false);
        }

        private string Besides(DeliveredFile file, DeliveryManifest manifest)
        {
            var words = new List<string>();
            if (Name != file.Name)
            {
                words.Add("it was renamed");
            }

            if (Info.Encoding != manifest.Encoding)
            {
                words.Add($"it is held as {Tickets.EncodingKeys.Word(Info.Encoding)} now, not {Tickets.EncodingKeys.Word(manifest.Encoding)}");
            }

            return words.Count == 0 ? "" : "; " + string.Join("; ", words);
        }
    }
}
