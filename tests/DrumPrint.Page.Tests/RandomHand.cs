using System.Globalization;
using DrumPrint.Dsp.Numerics;
using Microsoft.Playwright;

namespace DrumPrint.Page.Tests;

/// <summary>A hand on the bench that sets whatever it comes upon, with pointer and keys, as a person would.</summary>
internal sealed class RandomHand(IPage page, CounterNoise noise)
{
    private static readonly string[] DragKeys = ["ArrowLeft", "ArrowRight", "PageUp", "PageDown", "Home", "End"];

    private readonly Dictionary<string, int> _kinds = new(StringComparer.Ordinal);
    private string _open = "";
    private int _drawn;

    public static IReadOnlyList<string> AllKinds { get; } = ["choice", "default", "drag", "fader", "key", "leave out", "nudge", "switch", "typed", "undo and redo"];

    /// <summary>How many edits of each kind came into the file.</summary>
    public IReadOnlyDictionary<string, int> Kinds => _kinds;

    /// <summary>Edits that came into the file and stand there.</summary>
    public int Written { get; private set; }

    public int Tries { get; private set; }

    /// <summary>Edits that the bench refused, since they do not go together with the rest.</summary>
    public int Refused { get; private set; }

    /// <summary>Makes the first edit, and lets the page write.</summary>
    public async Task Begin()
    {
        // What was asked for, and what was answered: every wish to write ends with a new state of the page.
        await page.EvaluateAsync("""
            () => {
              window.hand = { asked: 0, answered: 0, refused: 0 };
              const talk = bench.talk;
              const set = talk.set;
              const say = talk.say;
              talk.set = values => { hand.asked++; return set(values); };
              talk.say = message => { if (message.kind === 'undo' || message.kind === 'redo') hand.asked++; return say(message); };
              talk.on('state', () => hand.answered++);
              talk.on('refused', message => { if (message.id !== 0) hand.refused++; });
            }
            """);
        await page.FillAsync("#open .setting input[type=number] >> nth=0", "-4");
        await page.Keyboard.PressAsync("Enter");
        await page.ClickAsync("#ask-yes");
        await page.WaitForFunctionAsync("() => bench.state.history.length === 1");
        await page.EvaluateAsync("() => { hand.asked = hand.answered = hand.refused = 0; }");
        Written = 1;
    }

    /// <summary>One edit; it may be refused, or change nothing.</summary>
    public async Task Edit()
    {
        Tries++;
        var before = await page.EvaluateAsync<int>("() => bench.state.history.length");
        var kind = (Tries % 10) switch
        {
            4 => await Faders(),
            9 => await UndoAndRedo(),
            _ => await Setting(),
        };
        await Answered();
        var grown = await page.EvaluateAsync<int>("() => bench.state.history.length") - before;
        Written += grown;
        if (grown > 0 || kind == "undo and redo")
        {
            _kinds[kind] = _kinds.GetValueOrDefault(kind) + 1;
        }
    }

    /// <summary>Takes back until nothing is left.</summary>
    public async Task<int> TakeAllBack()
    {
        var undone = 0;
        while (await page.IsEnabledAsync("#undo"))
        {
            if (undone % 2 == 0)
            {
                await page.ClickAsync("#undo");
            }
            else
            {
                await page.EvaluateAsync("() => document.activeElement.blur()");
                await page.Keyboard.PressAsync("u");
            }

            await Answered();
            undone++;
        }

        return undone;
    }

    private int Below(int most) => (int)((noise.Bipolar(_drawn++) + 1) / 2 * most * 0.999999);

    private T Any<T>(IReadOnlyList<T> list) => list[Below(list.Count)];

    private async Task Answered()
    {
        await page.WaitForFunctionAsync("() => hand.answered >= hand.asked");
        Refused += await page.EvaluateAsync<int>("() => { const n = hand.refused; hand.asked = hand.answered = hand.refused = 0; return n; }");
    }

    // Keys are written once they rest; at the end of a range they ask for nothing.
    private Task Rested() => page.EvaluateAsync("() => new Promise(done => { const until = performance.now() + 600; const look = () => hand.asked > 0 || performance.now() > until ? done() : setTimeout(look, 20); look(); })");

    private async Task<string> Faders()
    {
        var faders = page.Locator("#strips .fader input");
        for (var n = 0; n <= Below(3); n++)
        {
            await faders.Nth(Below(await faders.CountAsync())).FocusAsync();
            for (var k = 0; k <= Below(4); k++)
            {
                await page.Keyboard.PressAsync(Any(["ArrowLeft", "ArrowRight", "ArrowRight", "PageDown"]));
            }
        }

        if (await page.IsEnabledAsync("#into-chain"))
        {
            await page.ClickAsync("#into-chain");
        }

        return "fader";
    }

    private async Task<string> UndoAndRedo()
    {
        var back = 0;
        for (; back <= Below(3) && await page.IsEnabledAsync("#undo"); back++)
        {
            await page.ClickAsync("#undo");
            await Answered();
        }

        for (; back > 0; back--)
        {
            await page.ClickAsync("#redo");
            await Answered();
        }

        return "undo and redo";
    }

    private async Task<string> Setting()
    {
        var boxes = await page.EvaluateAsync<string[]>("() => [...document.querySelectorAll('#routing g[role=button]')].map(g => g.getAttribute('aria-label'))");
        if (Any(boxes) is var box && box != _open)
        {
            _open = box;
            await page.Locator($"#routing g[aria-label='{box}']").ClickAsync();
        }

        var settings = page.Locator("#open .setting");
        var one = settings.Nth(Below(await settings.CountAsync()));
        var has = await one.EvaluateAsync<string>("e => e.querySelector('[type=checkbox]') ? 'switch' : e.querySelector('select') ? 'choice' : e.querySelector('[type=number]') ? 'number' : 'word'");
        switch (has)
        {
            case "switch":
                await one.Locator("input").ClickAsync();
                return has;
            case "choice":
                await one.Locator("select").SelectOptionAsync(new SelectOptionValue { Index = Below(await one.Locator("option").CountAsync()) });
                return has;
            case "number":
                return await Number(one);
            default:
                return has;
        }
    }

    private async Task<string> Number(ILocator one)
    {
        var range = one.Locator("input[type=range]");
        var box = one.Locator("input[type=number]");
        if (await one.Locator("button.none:enabled").CountAsync() > 0 && Below(2) == 0)
        {
            await one.Locator("button.none").ClickAsync();
            return "leave out";
        }

        switch (Below(7))
        {
            case 0:
                await range.FocusAsync();
                await page.Keyboard.PressAsync(Any(DragKeys));
                await Rested();
                return "key";
            case 1:
                await Drag(range);
                return "drag";
            case 2:
                await box.FocusAsync();
                await page.Keyboard.PressAsync(Any(["ArrowUp", "ArrowDown", "Shift+ArrowUp", "Shift+ArrowDown"]));
                await Rested();
                return "nudge";
            case 3:
                await one.Locator("label").DblClickAsync();
                return "default";
            default:
                await box.FillAsync(await Typed(box));
                await box.PressAsync("Enter");
                return "typed";
        }
    }

    // Mostly within the range, with more or fewer digits; now and then beyond it.
    private async Task<string> Typed(ILocator box)
    {
        var ends = await box.EvaluateAsync<double[]>("b => [Number(b.min), Number(b.max)]");
        var value = ends[0] + ((ends[1] - ends[0]) * (Below(1060) - 30) / 1000);
        return Math.Round(value, Below(4)).ToString(CultureInfo.InvariantCulture);
    }

    private async Task Drag(ILocator range)
    {
        await range.HoverAsync();
        var box = (await range.BoundingBoxAsync())!;
        await page.Mouse.DownAsync();
        for (var n = 0; n <= Below(4); n++)
        {
            await page.Mouse.MoveAsync(box.X + (box.Width * (0.02f + (0.96f * Below(100) / 100))), box.Y + (box.Height / 2));
        }

        await page.Mouse.UpAsync();
    }
}
