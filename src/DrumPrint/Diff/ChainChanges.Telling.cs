using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Diff;

internal sealed partial class ChainChanges
{
    private void Files(string subject, string a, string b, RecordedInput? one, RecordedInput? other, ChangeScope scope)
    {
        if (RecordingChange.Of(a, b, one, other) is { } text)
        {
            Add(subject, text, scope);
        }
    }

    // A track of several files is told file by file: one that is new, gone, or another recording; then their order and places.
    private void Recordings(Track a, Track b, ChangeScope scope)
    {
        if (!a.Punched.Any && !b.Punched.Any)
        {
            Files(b.Name, a.File, b.File, RecordingChange.Input(_a.Tracks, b.Name), RecordingChange.Input(_b.Tracks, b.Name), scope);
            return;
        }

        foreach (var file in b.Files.Except(a.Files, StringComparer.Ordinal))
        {
            Add(b.Name, $"file {file} added", scope);
        }

        foreach (var file in a.Files.Except(b.Files, StringComparer.Ordinal))
        {
            Add(b.Name, $"file {file} left out", scope);
        }

        foreach (var file in b.Files.Intersect(a.Files, StringComparer.Ordinal))
        {
            var (one, other) = (RecordingChange.Input(_a.Tracks, b.Name, file), RecordingChange.Input(_b.Tracks, b.Name, file));
            Files(b.Name, file, file, one, other, scope);
            if (one?.StartFrame is { } before && other?.StartFrame is { } now && before != now)
            {
                Add(b.Name, $"{file} begins {ChangeWords.Seconds(before, one.RateHz)} → {ChangeWords.Seconds(now, other.RateHz)} s into the track", scope);
            }
        }

        if (!a.Files.Intersect(b.Files, StringComparer.Ordinal).SequenceEqual(b.Files.Intersect(a.Files, StringComparer.Ordinal)))
        {
            Add(b.Name, "files stand in another order", scope);
        }
    }

    // Things that go by a name: gone, new, or the same one changed; then their order.
    private void Named<T>(string what, IReadOnlyList<T> a, IReadOnlyList<T> b, Func<T, string> name, Func<string, ChangeScope> scope, Action<T, T> compare, Func<T, string>? label = null)
        where T : class
    {
        label ??= name;
        var (added, leftOut) = what switch
        {
            "print" when IsOfOnePrint => ("part of the rough now", "no part of the rough any more"),
            _ => ($"{what} added", $"{what} left out"),
        };

        // A chain cut down to one print loses and gains tracks and buses with the feeds, keys and prints that call for them.
        var isNoted = !IsOfOnePrint || what == "print";
        var before = new ByName<T>(a, name);
        var now = new ByName<T>(b, name);
        foreach (var other in b)
        {
            if (before.Find(name(other)) is { } one)
            {
                compare(one, other);
            }
            else if (isNoted)
            {
                Add(label(other), added, scope(name(other)));
            }
        }

        foreach (var one in a.Where(x => isNoted && now.Find(name(x)) is null))
        {
            Add(label(one), leftOut, scope(name(one)));
        }

        if (!before.IsInOrderOf(now))
        {
            Add("chain", $"{what}{(what.EndsWith('s') ? "es" : "s")} stand in another order", ChangeScope.All);
        }
    }

    private void Number(string subject, NumberParameter key, double a, double b, ChangeScope scope)
    {
        if (a != b)
        {
            Add(subject, ChangeWords.Moved(key.Key, key.Unit, a, b), scope);
        }
    }

    private void Word(string subject, string label, string a, string b, ChangeScope scope)
    {
        if (a != b)
        {
            Add(subject, ChangeWords.Moved(label, a, b), scope);
        }
    }

    // Prose is not repeated; that it is another one is told.
    private void Notes(string subject, string? a, string? b)
    {
        // A print carries no notes, so a chain cut down to one has none to lose.
        if (a != b && !IsOfOnePrint)
        {
            Add(subject, a is null ? "notes added" : b is null ? "notes left out" : "other notes", ChangeScope.None);
        }
    }

    private void Add(string subject, string text, ChangeScope scope) => _changes.Add(new Change(subject, text) { Scope = scope });

    // By number, for each change. The name is the present one where both have the print.
    private SortedList<int, string>[] Reaches()
    {
        var reaches = _changes.Select(_ => new SortedList<int, string>()).ToArray();
        foreach (var print in PrintReach.Of(_b).Concat(PrintReach.Of(_a)))
        {
            for (var i = 0; i < reaches.Length; i++)
            {
                if (_changes[i].Scope.Touches(print))
                {
                    reaches[i].TryAdd(print.Target.Number, Name(print.Target.Number, print.Target.Name));
                }
            }
        }

        return reaches;
    }

    private static string Name(int number, string name) => string.Create(CultureInfo.InvariantCulture, $"{number:00} {name}");
}
