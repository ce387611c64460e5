namespace DrumPrint.Tests.Chains;

public sealed class BusCircleTests
{
    [Fact]
    public void A_bus_that_feeds_itself_is_told_so()
    {
        var words = Sample.Words(Sample.Chain(buses: """{ "kick": { "from": { "in": 0, "kick": -6 } } }"""));

        Assert.Equal(["buses.kick.from.kick: bus 'kick' feeds itself. Take this feed out."], words);
    }

    [Fact]
    public void A_bus_that_is_its_own_key_is_told_so()
    {
        var words = Sample.Words(Sample.Chain(buses: """{ "kick": { "from": { "in": 0 }, "through": [ { "gate": { "key": "kick" } } ] } }"""));

        Assert.Equal(["buses.kick.through[0].gate.key: bus 'kick' is its own key. Leave the key out: gate listens to its own input anyway."], words);
    }

    [Fact]
    public void A_circle_through_feeds_and_keys_is_named_whole()
    {
        var words = Sample.Words(Sample.Chain(buses: """
            {
              "kick": { "from": { "in": 0 } },
              "room": { "from": { "rasp": 0, "kick": 0 } },
              "rasp": { "from": { "snare": 0 } },
              "snare": { "from": { "out": 0 }, "through": [ { "compress": { "key": "room" } } ] }
            }
            """));

        Assert.Equal(
            [
                "buses.snare.through[0].compress.key: these buses wait for each other in a circle: 'room' takes in 'rasp', 'rasp' takes in 'snare' " +
                "and 'snare' has 'room' as the key of compress. Take one of these out.",
            ],
            words);
    }

    [Fact]
    public void Two_circles_are_two_mistakes()
    {
        var words = Sample.Words(Sample.Chain(buses: """
            {
              "a": { "from": { "b": 0 } }, "b": { "from": { "a": 0 } },
              "c": { "from": { "d": 0 } }, "d": { "from": { "c": 0, "a": 0 } },
              "kick": { "from": { "in": 0 } }
            }
            """));

        Assert.Equal(
            [
                "buses.b.from.a: these buses wait for each other in a circle: 'a' takes in 'b' and 'b' takes in 'a'. Take one of these out.",
                "buses.d.from.c: these buses wait for each other in a circle: 'c' takes in 'd' and 'd' takes in 'c'. Take one of these out.",
            ],
            words);
    }

    [Fact]
    public void Buses_that_meet_again_are_no_circle()
    {
        var chain = Sample.Read(Sample.Chain(buses: """
            {
              "sum": { "from": { "left": 0, "right": 0, "kick": 0 }, "through": [ { "gate": { "key": "left" } } ] },
              "left": { "from": { "kick": 0 } }, "right": { "from": { "kick": 0 } },
              "kick": { "from": { "in": 0 } }
            }
            """));

        Assert.Equal(4, chain.Buses.Count);
    }
}
