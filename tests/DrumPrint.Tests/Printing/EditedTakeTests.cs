using System.Globalization;
using DrumPrint.Files;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

/// <summary>An edited print outlives whatever happens around it, in any order.</summary>
public sealed class EditedTakeTests : IDisposable
{
    private const string Name = "02_B_Test_v1.wav";

    private readonly TestSession _session = new();
    private double _levelDb = -3;

    public EditedTakeTests() => _session.Track("a.wav", Signals.Hits(4800, 1));

    private enum Event
    {
        /// <summary>Its bus changes, and another print is made alone.</summary>
        Only,

        /// <summary>The ticket is deleted.</summary>
        TicketGone,

        /// <summary>A later version is printed, and the chain goes back.</summary>
        Version,

        /// <summary>A print is stopped while files take their names.</summary>
        Killed,
    }

    public static TheoryData<int> Orders => [.. Enumerable.Range(0, 24)];

    public void Dispose() => _session.Dispose();

    [Theory]
    [MemberData(nameof(Orders))]
    public void Every_order_of_what_can_happen_keeps_it(int order)
    {
        Print();
        byte[]? edited = null;
        var events = Order(order);
        for (var n = 0; n <= events.Count; n++)
        {
            if (n == order % (events.Count + 1))
            {
                edited = Edit();
            }

            if (n < events.Count)
            {
                Happens(events[n]);
            }
        }

        Print();

        var kept = Directory.GetFiles(_session.Prints, "*.wav", SearchOption.AllDirectories);
        Assert.Contains(kept, f => File.ReadAllBytes(f).AsSpan().SequenceEqual(edited));
        Assert.Empty(Directory.GetFiles(_session.Prints, ".drumprint*"));
    }

    private byte[] Edit()
    {
        var path = Path.Combine(_session.Prints, Name);
        if (!File.Exists(path))
        {
            Print(); // a print was stopped just here
        }

        Kept.Flip(path, 0.9);
        return File.ReadAllBytes(path);
    }

    private void Happens(Event what)
    {
        switch (what)
        {
            case Event.Only:
                _levelDb -= 1;
                Print(new PrintOptions { Only = ["A"] });
                break;
            case Event.TicketGone:
                File.Delete(Path.Combine(_session.Prints, "Test_v1.ticket.json"));
                break;
            case Event.Version:
                Print(version: 2);
                break;
            case Event.Killed:
                _levelDb -= 1;
                var stopped = new InvalidOperationException();
                Assert.Same(stopped, Assert.Throws<InvalidOperationException>(() => Print(new PrintOptions
                {
                    Threads = 1,
                    Steps = new FileSteps(step =>
                    {
                        if (step.EndsWith($"to {Name}", StringComparison.Ordinal))
                        {
                            throw stopped; // nothing is undone after this
                        }
                    }),
                })));
                break;
        }
    }

    private void Print(PrintOptions? options = null, int version = 1) => _session.Print(
        _session.Chain(
            string.Create(CultureInfo.InvariantCulture, $$"""
                "tracks": { "a": "a.wav" }, "buses": { "bus a": { "from": { "a": -9 } }, "bus b": { "from": { "a": {{_levelDb}} } } },
                "prints": [ { "number": 1, "name": "A", "bus": "bus a" }, { "number": 2, "name": "B", "bus": "bus b" } ], "output": { "tail_s": 0, "rough": false }
                """),
            string.Create(CultureInfo.InvariantCulture, $"\"version\": {version}")),
        options);

    private static List<Event> Order(int n)
    {
        var left = Enum.GetValues<Event>().ToList();
        var order = new List<Event>();
        for (var count = left.Count; count > 0; count--)
        {
            order.Add(left[n % count]);
            left.RemoveAt(n % count);
            n /= count;
        }

        return order;
    }
}
