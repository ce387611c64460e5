using System.Diagnostics;
using System.Globalization;
using DrumPrint.Bench.Messages;
using DrumPrint.Chains;
using DrumPrint.Live;

namespace DrumPrint.Bench.Serving;

/// <summary>Does what each message of the page asks for.</summary>
internal sealed partial class Desk
{
    private void Answer(Asked asked) => Guarded(asked.Id, () => Do(asked));

    private void Do(Asked asked)
    {
        var start = Stopwatch.GetTimestamp();
        switch (asked.Kind)
        {
            case "try":
                HearFile();
                var tried = _file.Try(Values(asked));
                Hear(tried);
                Send(new ChangedMessage(asked.Id, Sound.Version, [], "try", Ms(start)) { Response = asked.Values.Count == 1 ? _builder.ResponseAt(tried, asked.Values[0].Place) : null }, BenchJson.Default.ChangedMessage);
                break;
            case "set":
                HearFile();
                var values = Values(asked);

                // The sound first, then the disk.
                HearTried(values);
                var version = Sound.Version;
                var ms = Ms(start);
                KeepBefore(_file.Chain, () => Written(values), asked.Id, "page", version, ms);
                break;
            case "undo":
                HearFile();
                KeepBefore(_file.Chain, _file.Undo, asked.Id, "undo", null, 0);
                break;
            case "redo":
                HearFile();
                KeepBefore(_file.Chain, _file.Redo, asked.Id, "redo", null, 0);
                break;
            case "allow":
                _file.Allow();
                TellState();
                break;
            case "back":
                Hear(_file.Chain);
                TellState();
                break;
            case "play":
                Sound.Play(asked.Frame, asked.To);
                break;
            case "stop":
                Sound.Stop();
                Sound.GetReady(asked.Frame);
                break;
            case "ready":
                Sound.GetReady(asked.Frame);
                break;
            case "repeat":
                _repeated = asked.Frame is { } first && asked.To is { } last ? (first, last) : null;
                Engine.Repeat(asked.Frame, asked.To);
                _ = SideThread.Run(PrepareAgain);
                break;
            case "fader":
                Engine.Fade(asked.Number, Math.Clamp(asked.Gain, 0, 8));
                break;
            case "partner":
                Partner.Fade(asked.Gain);
                break;
            case "bus":
                Engine.HearBus(asked.On);
                TellState();
                break;
            case "keep":
                Keep(string.Create(CultureInfo.InvariantCulture, $"state {_keptBefore + 1}"), _file.Chain);
                TellState();
                break;
            case "choose":
                Choose(asked.Kept ?? 0);
                break;
            case "hear":
                HearKept(asked.Kept);
                break;
            case "blind":
                BeginBlind(asked.Kept, asked.Other);
                break;
            case "side":
                Engine.Hear(asked.On);
                break;
            case "blind_end":
                EndBlind(null);
                break;
            case "print":
                if (_file.Mistakes.Count > 0)
                {
                    throw new UsageException("The chain file has a mistake, so nothing was printed. Mend it first; until then the last good state sounds.");
                }

                var printed = _file.Chain;
                _print.Begin((progress, cancel) => Send(PrintJob.Print(printed, _reading, progress, cancel), BenchJson.Default.PrintedMessage));
                break;
            case "stop_print":
                _print.Stop();
                break;
            case "look":
                var looked = _file.Chain;
                _look.Begin((progress, cancel) =>
                {
                    var found = TakeLook.Take(looked, _reading, progress, cancel);
                    Later(() =>
                    {
                        _found = found;
                        TellFound();
                    });
                });
                break;
            case "stop_look":
                _look.Stop();
                break;
            case "line_up":
                HearFile();
                KeepBefore(_file.Chain, () => _file.Write(text => Found.Move(_file.Chain, asked.Track).WriteInto(text, _file.Chain)), asked.Id, "page", null, 0);
                break;
            case "end":
                Send(new WordMessage(asked.Id, "The bench has ended. This page can be closed.", "ended"), BenchJson.Default.WordMessage);
                Ended();
                break;
        }
    }

    // What cannot be heard is not written, and what was tried before it does not go on sounding.
    private void HearTried(IReadOnlyList<ChainValue> values)
    {
        try
        {
            Hear(_file.Try(values));
        }
        catch
        {
            Hear(_file.Chain);
            throw;
        }
    }

    // What cannot be written does not go on sounding either.
    private DeskChange? Written(IReadOnlyList<ChainValue> values)
    {
        try
        {
            return _file.Write(values);
        }
        catch
        {
            Hear(_file.Chain);
            throw;
        }
    }

    private TakeLook Found => _found ?? throw new UsageException("Look over the takes first.");

    private void TellFound()
    {
        if (_found is { } found)
        {
            Send(found.Message(_file.Chain, _file.Text), BenchJson.Default.FindingsMessage);
        }
    }

    private void KeepBefore(Chain before, Func<DeskChange?> change, int id, string by, int? version, double ms)
    {
        var start = Stopwatch.GetTimestamp();
        if (change() is not { } made)
        {
            TellState();
            return;
        }

        Outline(Quiet);
        _kept.RemoveAll(k => k.Number == 0);
        _kept.Insert(0, (0, "before the last change", before));
        if (version is null)
        {
            Hear(made.After);
            ms = Ms(start);
        }

        Send(new ChangedMessage(id, version ?? Sound.Version, made.Sentences, by, ms), BenchJson.Default.ChangedMessage);
        TellState();
        TellFound();
        Match(_kept.Any(k => k.Number == _chosen) ? _chosen : 0, Rest);
    }
}
