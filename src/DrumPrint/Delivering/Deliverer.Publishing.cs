using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Delivering;

public sealed partial class Deliverer
{
    private void Publish(StagedFolder staged, DeliveryManifest manifest)
    {
        var target = Path.Combine(_options.To, manifest.FolderName);
        if (!Path.Exists(target))
        {
            staged.Publish(manifest.FolderName);
            _written.Add(target);
        }
        else
        {
            EarlierDelivery.RequireSame(target, manifest);
            _notes.Add($"{target} is there already, the same to the last byte.");
        }

        if (_options.Zips)
        {
            Zip(target);
        }
    }

    private void Zip(string folder)
    {
        var path = folder + ".zip";
        if (!Path.Exists(path))
        {
            _progress?.Invoke("Zipping", 0);
            _options.Steps.Do("write the zip file", () => DeliveryZip.Write(folder, path, _options.Steps, _cancel));
            _written.Add(path);
            return;
        }

        // The same folder gives the same bytes, so what is there can be held against what would be made.
        var again = Path.Combine(_options.To, TemporaryName.New());
        try
        {
            DeliveryZip.Write(folder, again, _options.Steps, _cancel);
            _notes.Add(FileHash.Sha256(again) == FileHash.Sha256(path)
                ? $"{path} is there already, the same to the last byte."
                : throw new UsageException($"{path} is there already, and holds something else. A delivery is never overwritten: move it away, or deliver to another folder with --to."));
        }
        finally
        {
            _options.Steps.TryDelete(again);
        }
    }

    // Only what is changed or new, with what tells of it.
    private void Changed(string folder, DeliveryManifest manifest)
    {
        var kept = manifest.Files.Where(f => f.State is DeliveredState.Unsaid or DeliveredState.Changed or DeliveredState.New).ToList();
        var part = manifest with { IsPart = true, Files = kept };
        using var staged = new StagedFolder(_options.To, _options.Steps);
        foreach (var file in kept)
        {
            staged.Copy(Path.Combine(folder, file.Name), file.Name, _cancel);
        }

        staged.Seal(part);
        Publish(staged, part);
    }
}
