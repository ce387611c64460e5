using DrumPrint.Files;

namespace DrumPrint.Fuzz.Targets;

/// <summary>The journal of a set of files that is taking its names.</summary>
internal sealed class JournalTarget : FuzzTarget
{
    private readonly ScratchFolder _folder = new();
    private readonly ScratchFile _file;

    public JournalTarget() => _file = new ScratchFile(SetJournal.PathIn(_folder.Path));

    public override string Name => "journal";

    public override long BaseBytes => 1 << 20;

    public override long BytesPerByte => 256;

    protected override bool Read(byte[] input)
    {
        _file.Put(input);
        if (SetJournal.Read(_folder.Path, JournalSeal.None) is not { } journal)
        {
            return false;
        }

        Require(ReceivedName.IsBare(journal.KeptFolder), "the folder of kept files lies in the folder of the set");
        foreach (var entry in journal.Entries)
        {
            Require(ReceivedName.IsBare(entry.Name) && (entry.KeptAs is null || ReceivedName.IsBare(entry.KeptAs)), "a journal names files of its own folder");
            Require((entry.Staged is null || TemporaryName.Is(entry.Staged)) && (entry.Before is null || TemporaryName.Is(entry.Before)), "temporary names are the program's own");
            Require(IsInFolder(entry.Name) && (entry.Staged is null || IsInFolder(entry.Staged)), "no name leads out of the folder");
        }

        return true;
    }

    protected override void Dispose(bool disposing)
    {
        _file.Dispose();
        _folder.Dispose();
        base.Dispose(disposing);
    }

    private bool IsInFolder(string name) => Path.GetDirectoryName(Path.GetFullPath(_folder.File(name))) == _folder.Path;
}
