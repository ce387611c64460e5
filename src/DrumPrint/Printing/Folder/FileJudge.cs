using DrumPrint.Audio;
using DrumPrint.Printing.Runs;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Folder;

/// <summary>Decides what lies under the name of one print: by what the file says of itself, then by the ticket, then by the store.</summary>
/// <param name="setup">The run.</param>
/// <param name="set">Its new files.</param>
/// <param name="ticket">The ticket that lies beside them; null without one.</param>
internal sealed class FileJudge(RunSetup setup, RenderedSet set, Ticket? ticket)
{
    /// <summary>Decides on the file under the name of a new print.</summary>
    /// <exception cref="AudioFileException">It cannot be read at all.</exception>
    public FileVerdict Of(PrintFigures print)
    {
        var path = setup.PathOf(print.Target);
        if (new FileInfo(path) is not { Exists: true, Length: > 0 })
        {
            return new FileVerdict(print, path, FileState.Absent);
        }

        var (audio, file) = Hashes(path);
        var (part, isGarbled) = EarlierRecord.Read(path);
        var verdict = new FileVerdict(print, path, FileState.Same) { Part = part, IsGarbled = isGarbled, FileSha256 = file };
        return file == print.Writer!.FileSha256 ? verdict : verdict with { State = State(verdict, audio) };
    }

    private FileState State(FileVerdict file, string? audio)
    {
        if (!EarlierPrint.MayReplace(file.Path))
        {
            return FileState.Foreign;
        }

        if (audio is null)
        {
            return FileState.Damaged;
        }

        return Doubt(file, audio) ?? Difference(file, audio);
    }

    // Whether the file may have been changed since it was printed; null when it was not.
    private FileState? Doubt(FileVerdict file, string audio)
    {
        if (FileSeal.Read(file.Path) is { } seal)
        {
            return seal.Holds(audio) ? null : FileState.Edited;
        }

        var name = Path.GetFileName(file.Path);
        var recorded = ticket?.Prints.FirstOrDefault(p => p.FileName == name);
        if (recorded?.FileSha256 == file.FileSha256 || setup.Store?.HasWritten(file.FileSha256!) == true)
        {
            return null;
        }

        // Excerpts of earlier versions said nothing of themselves: the same samples lose nothing.
        if (!setup.Run.IsOfWholeSong && audio == file.Print.Writer!.AudioSha256)
        {
            return null;
        }

        // A print that lost its record was saved by another program.
        var hasLostItsRecord = setup.Run.IsOfWholeSong && file is { Part: null, IsGarbled: false };
        return recorded is not null || hasLostItsRecord ? FileState.Edited : FileState.Unproven;
    }

    // How a file that is as it was printed differs from the new one.
    private FileState Difference(FileVerdict file, string audio)
    {
        if (audio == file.Print.Writer!.AudioSha256)
        {
            return FileState.SameSound;
        }

        using var reader = AudioReader.Open(file.Path, AudioHashes.None);
        var info = reader.Info;
        return info.Encoding != setup.Encoding ? FileState.OtherWordLength
            : info.Frames != set.Account.Frames && FileVerdict.IsSameWhileBothLast(file.Print, file.Path) ? info.Frames < set.Account.Frames ? FileState.OnlyLonger : FileState.OnlyShorter
            : file.Part is { } then && set.Parts.TryGetValue(file.Print.Target.Number, out var now) && then.IsMadeLike(now) ? FileState.OtherEngine
            : FileState.MadeOtherwise;
    }

    // Of the samples, null when the file is damaged, and of all bytes.
    private static (string? Audio, string File) Hashes(string path)
    {
        try
        {
            var hashes = FileHash.Of(path, AudioHashes.Samples | AudioHashes.File);
            if (hashes.FileSha256 is { } file)
            {
                return (hashes.AudioSha256, file);
            }
        }
        catch (AudioFileException)
        {
            // Damaged, or it cannot be read at all; then the next line says so.
        }

        return (null, FileHash.Sha256(path));
    }
}
