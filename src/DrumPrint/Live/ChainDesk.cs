using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Diff;
using DrumPrint.Files;

namespace DrumPrint.Live;

/// <summary>A chain file that is changed value by value, while others may edit it too. The file is the truth: what is here is what it said
/// when it was read last.</summary>
/// <remarks>Every byte that is not the value stays: comments, order, spaces, line ends. Not safe for several threads at once.</remarks>
public sealed class ChainDesk
{
    /// <summary>Begins the place of a print that stands in a recipe: its number follows.</summary>
    public const string RecipePrint = "of recipe ";

    private readonly ReadPolicy _reading;
    private readonly FileSteps _steps;
    private readonly List<Written> _done = [];
    private readonly List<Written> _undone = [];
    private byte[] _seen;
    private byte[] _text;
    private byte[] _seenRecipe;
    private bool _wasEditedOutside;
    private bool _hasCopy;

    /// <summary>Opens a chain file.</summary>
    /// <param name="path">The file, as the user named it.</param>
    /// <param name="reading">Which files it may name; within the session when left out.</param>
    /// <exception cref="ChainException">It has mistakes.</exception>
    /// <exception cref="UnreadableFileException">It cannot be read.</exception>
    public ChainDesk(string path, ReadPolicy? reading = null)
        : this(path, reading ?? ReadPolicy.Default, FileSteps.Plain)
    {
    }

    internal ChainDesk(string path, ReadPolicy reading, FileSteps steps)
    {
        (Path, _reading, _steps) = (path, reading, steps);
        Chain = ChainReader.Read(path, reading: reading);
        _seen = _text = SourceFile.Read(path);
        _seenRecipe = Recipe();
    }

    public string Path { get; }

    /// <summary>The chain as the file said it last without a mistake.</summary>
    public Chain Chain { get; private set; }

    /// <summary>What is wrong with the file now; empty when it can be read.</summary>
    public IReadOnlyList<string> Mistakes { get; private set; } = [];

    /// <summary>Whether the file may be written. It may not until somebody says so.</summary>
    public bool MayWrite { get; private set; }

    /// <summary>Where the file is kept as it was before the first change.</summary>
    public string CopyPath => System.IO.Path.Combine(System.IO.Path.GetDirectoryName(Path) ?? "", "." + System.IO.Path.GetFileName(Path) + ".before-bench");

    /// <summary>What would be taken back next, in words; empty when nothing can be.</summary>
    public IReadOnlyList<string> NextUndo => _done.Count > 0 ? _done[^1].Sentences : [];

    /// <summary>What would be done again next, in words; empty when nothing can be.</summary>
    public IReadOnlyList<string> NextRedo => _undone.Count > 0 ? _undone[^1].Sentences : [];

    /// <summary>Every change that stands, the first one first.</summary>
    public IReadOnlyList<IReadOnlyList<string>> History => [.. _done.Select(d => d.Sentences)];

    /// <summary>The text of the file as it is known here.</summary>
    internal byte[] Text => _text;

    /// <summary>Lets the file be written from now on.</summary>
    public void Allow() => MayWrite = true;

    /// <summary>The chain as it would be with these values. Nothing is written.</summary>
    /// <exception cref="ChainException">They make a mistake.</exception>
    /// <exception cref="UsageException">There is no such place.</exception>
    public Chain Try(IReadOnlyList<ChainValue> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        MustBeOwn(values);
        return ChainReader.Parse(values.Aggregate(_text, (text, value) => value.In(text)), Path);
    }

    /// <summary>Writes values into the file.</summary>
    /// <returns>What changed; null when nothing does.</returns>
    /// <exception cref="ChainException">They make a mistake; nothing is written.</exception>
    /// <exception cref="UsageException">The file may not be written, was edited outside a moment ago, or has a mistake.</exception>
    public DeskChange? Write(IReadOnlyList<ChainValue> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        MustBeOwn(values);
        return Write(text => values.Aggregate(text, (now, value) => value.In(now)));
    }

    /// <summary>Writes an edit of the text into the file.</summary>
    /// <param name="edit">Makes the new text.</param>
    /// <inheritdoc cref="Write(IReadOnlyList{ChainValue})"/>
    public DeskChange? Write(Func<byte[], byte[]> edit)
    {
        ArgumentNullException.ThrowIfNull(edit);
        MustBeWritable();
        var after = edit(_text);
        if (after.AsSpan().SequenceEqual(_text))
        {
            return null;
        }

        var chain = ChainReader.Parse(after, Path);
        var before = _text;
        var change = Put(after, chain);
        _done.Add(new Written(before, after, change.Sentences));
        _undone.Clear();
        return change;
    }

    /// <summary>Takes the last change back.</summary>
    /// <exception cref="UsageException">There is none, or the file was edited outside since.</exception>
    public DeskChange Undo()
    {
        MustBeWritable();
        if (_done.Count == 0)
        {
            throw new UsageException(_wasEditedOutside
                ? "The chain was edited outside the bench since its last change here. Taking that back would lose the edit, so it stays."
                : "Nothing was changed here that could be taken back.");
        }

        var last = _done[^1];
        var change = Put(last.Before, ChainReader.Parse(last.Before, Path));
        _done.RemoveAt(_done.Count - 1);
        _undone.Add(last);
        return change;
    }

    /// <summary>Does the change again that was taken back last.</summary>
    /// <exception cref="UsageException">There is none, or the file was edited outside since.</exception>
    public DeskChange Redo()
    {
        MustBeWritable();
        if (_undone.Count == 0)
        {
            throw new UsageException("Nothing was taken back that could be done again.");
        }

        var last = _undone[^1];
        var change = Put(last.After, ChainReader.Parse(last.After, Path));
        _undone.RemoveAt(_undone.Count - 1);
        _done.Add(last);
        return change;
    }

    /// <summary>Looks whether the file was edited outside. With a mistake in it the last chain stays, and <see cref="Mistakes"/> tells.</summary>
    /// <returns>What changed; null when nothing did, or when it cannot be read.</returns>
    public DeskChange? Look()
    {
        byte[] now;
        try
        {
            now = SourceFile.Read(Path);
        }
        catch (UnreadableFileException e)
        {
            Mistakes = [e.Message];
            _seen = [];
            return null;
        }

        var recipe = Recipe();
        var isSameRecipe = recipe.AsSpan().SequenceEqual(_seenRecipe);
        if (now.AsSpan().SequenceEqual(_seen) && isSameRecipe)
        {
            return null;
        }

        (_seen, _seenRecipe) = (now, recipe);
        try
        {
            var chain = ChainReader.Read(Path, reading: _reading);
            Mistakes = [];
            if (now.AsSpan().SequenceEqual(_text) && isSameRecipe)
            {
                return null;
            }

            var change = new DeskChange(Chain, chain, Sentences(Chain, chain));
            (Chain, _text, _wasEditedOutside) = (chain, now, true);
            _done.Clear();
            _undone.Clear();
            return change;
        }
        catch (Exception e) when (e is ChainException or UsageException or UnreadableFileException)
        {
            Mistakes = e is ChainException chain ? [.. chain.Problems.Select(p => p.ToString())] : [e.Message];
            return null;
        }
    }

    // Other songs use the recipe too, so nothing is written there.
    private void MustBeOwn(IReadOnlyList<ChainValue> values)
    {
        if (Chain.Uses is { } recipe && values.Select(v => Entry(v.Place)).FirstOrDefault(recipe.Holds) is { } place)
        {
            throw new UsageException($"{place} stands in {recipe.File}, which other songs may use too. Change it there; or write it into this chain, whose own counts.");
        }
    }

    private static string Entry(IReadOnlyList<string> place) => place switch
    {
        ["drum_bus" or "output", ..] => place[0],
        ["prints", var print, ..] when print.StartsWith(RecipePrint, StringComparison.Ordinal) => "prints." + print[RecipePrint.Length..],
        _ => string.Join('.', place.Take(2)),
    };

    private byte[] Recipe()
    {
        try
        {
            return Chain.Uses is { } recipe ? SourceFile.Read(recipe.Path) : [];
        }
        catch (UnreadableFileException)
        {
            return [];
        }
    }

    private void MustBeWritable()
    {
        if (!MayWrite)
        {
            throw new UsageException("The bench may not write into this chain yet.");
        }

        if (!Mistakes.Any() && SourceFile.Read(Path).AsSpan().SequenceEqual(_text))
        {
            return;
        }

        throw new UsageException(Mistakes.Any()
            ? "The chain has a mistake, made outside the bench. Mend it first; until then the last good state sounds."
            : "The chain was edited outside a moment ago. Nothing was written; look at it and change again.");
    }

    private DeskChange Put(byte[] text, Chain chain)
    {
        if (!_hasCopy)
        {
            Write(CopyPath, _text);
            _hasCopy = true;
        }

        var change = new DeskChange(Chain, chain, Sentences(Chain, chain));
        Write(Path, text);
        (Chain, _text, _seen) = (chain, text, text);
        return change;
    }

    private void Write(string path, byte[] bytes)
    {
        var isThere = false;
        try
        {
            using var file = StagedFile.Create(path, bytes.Length, _steps);
            file.Append(bytes);
            file.Complete();
            file.Commit(replaces: true);
            isThere = true;
            file.FlushName();
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            // Once it has its name it is whole; only a power cut could still undo that.
            if (!isThere)
            {
                throw FileTrouble.Writing(path, e);
            }
        }
    }

    // At least one: what changes no sound is taken back too.
    private IReadOnlyList<string> Sentences(Chain a, Chain b) =>
        [.. ChainChanges.Of(Made.Of(Path, a), Made.Of(Path, b)).Select(c => c.ToString()).DefaultIfEmpty("the text, nothing of the sound")];

    private sealed record Written(byte[] Before, byte[] After, IReadOnlyList<string> Sentences);
}
