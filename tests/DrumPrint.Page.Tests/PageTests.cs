using Microsoft.Playwright;

namespace DrumPrint.Page.Tests;

[Collection(Browser.Pages)]
public sealed class PageTests(Browser browser)
{
    private const long LargestBytes = 12_000_000;

    // What the fields of the stretch are rounded to.
    private const double CentisecondS = 0.01;

    // How long it takes to open is written down, not asserted: on a busy machine that says more of the machine.
    [FactInBrowser]
    public async Task Two_stereo_sides_of_12_s_make_a_page_under_12_MB()
    {
        // From the moment the browser sets out for the page until everything on it can be used.
        await using var open = await browser.Open(browser.Session.SamePage);
        var seconds = await open.Page.EvaluateAsync<double>("() => Number(document.documentElement.dataset.ready)") / 1000;
        await File.WriteAllTextAsync(Path.Combine(Browser.Kept, "opening.txt"), FormattableString.Invariant($"{new FileInfo(browser.Session.SamePage).Length} bytes, opens in {seconds:0.00} s\n"));

        Assert.Equal((12 * PageSession.Rate, 2, 2), (browser.Session.SameReport.Main.Passage.Frames, browser.Session.SameReport.Main.A.Channels, browser.Session.SameReport.Main.B.Channels));
        Assert.InRange(new FileInfo(browser.Session.SamePage).Length, 1, LargestBytes);
    }

    [FactInBrowser]
    public async Task Nothing_leaves_the_page_and_nothing_is_complained_about()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        await open.Page.ClickAsync("#listen");
        await open.Page.ClickAsync("#side-B");
        await open.Page.ClickAsync("#blind-start");
        await open.Page.ClickAsync("#blind-stop");
        await open.Page.WaitForTimeoutAsync(300);

        Assert.Equal([new Uri(browser.Session.ImpactPage).AbsoluteUri], open.Requests.Distinct());
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task Sides_are_switched_by_pointer_and_by_key_while_the_place_goes_on()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        await open.Page.ClickAsync("#listen");
        var before = await Position(open);

        await open.Page.ClickAsync("#side-B");
        var isB = await open.IsPressed("#side-B");
        await open.Page.Keyboard.PressAsync("d");
        var isDifference = await open.IsPressed("#side-D");
        await open.Page.Keyboard.PressAsync("a");
        while (await Position(open) < before + 0.2)
        {
            await open.Page.WaitForTimeoutAsync(20);
        }

        Assert.True(isB && isDifference && await open.IsPressed("#side-A"));
        Assert.Equal("Stop", await open.Text("#listen"));
    }

    [FactInBrowser]
    public async Task A_chosen_stretch_is_repeated()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        var from = browser.Session.Report.Main.Passage.FromS;
        await open.Page.FillAsync("#loop-from", Seconds(from + 2));
        await open.Page.FillAsync("#loop-to", Seconds(from + 2.5));
        await open.Page.Keyboard.PressAsync("Tab");
        await open.Page.ClickAsync("#listen");
        var places = new List<double>();
        for (var i = 0; i < 30; i++)
        {
            places.Add(await Position(open));
            await open.Page.WaitForTimeoutAsync(40);
        }

        Assert.All(places, place => Assert.InRange(place, 2 - CentisecondS, 2.5 + CentisecondS));
        Assert.Contains(places.Zip(places.Skip(1)), pair => pair.Second < pair.First - 0.1);
    }

    [FactInBrowser]
    public async Task A_stretch_is_chosen_by_dragging_over_the_waveforms()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        var box = (await open.Page.Locator("#wave").BoundingBoxAsync())!;

        await open.Page.Mouse.MoveAsync(box.X + (box.Width / 4), box.Y + 40);
        await open.Page.Mouse.DownAsync();
        await open.Page.Mouse.MoveAsync(box.X + (box.Width / 2), box.Y + 40, new MouseMoveOptions { Steps = 5 });
        var whileDragged = await open.Text("#drag-out");
        await open.Page.Mouse.UpAsync();

        var (song, half) = (browser.Session.Report.Main.Passage.FromS, browser.Session.Report.Main.Passage.Frames / 2.0 / PageSession.Rate);
        Assert.Contains(" to ", whileDragged, StringComparison.Ordinal);
        Assert.Equal(song + (half / 2), double.Parse(await open.Page.InputValueAsync("#loop-from"), System.Globalization.CultureInfo.InvariantCulture), 0.1);
        Assert.Equal(song + half, double.Parse(await open.Page.InputValueAsync("#loop-to"), System.Globalization.CultureInfo.InvariantCulture), 0.1);
    }

    [FactInBrowser]
    public async Task The_level_shown_is_the_engines_and_true_level_is_one_key_away()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        var offset = browser.Session.Report.Main.Matching.OffsetDb;
        var matched = await open.Text("#match-words");
        var gains = await open.Page.EvaluateAsync<double[]>("() => window.drumPrint.desk.gains()");

        await open.Page.Keyboard.PressAsync("l");

        var words = FormattableString.Invariant($"A is turned down by {offset:0.00} dB");
        Assert.Contains(words, matched, StringComparison.Ordinal);
        Assert.Contains(words, await open.Text("#measured"), StringComparison.Ordinal);
        Assert.Equal(Math.Pow(10, -offset / 20), gains[0], 1e-6);
        Assert.Equal(1, gains[1]);
        Assert.StartsWith("True level: B is", await open.Text("#match-words"), StringComparison.Ordinal);
        Assert.True(await open.Page.EvaluateAsync<bool>("() => window.drumPrint.desk.gains().every(gain => gain === 1)"));
    }

    [FactInBrowser]
    public async Task Matching_turns_the_louder_side_down_and_none_up()
    {
        await using var open = await browser.Open(browser.Session.SamePage);
        var gains = await open.Page.EvaluateAsync<double[]>("() => [[true, -3, 0], [true, 2, 1], [true, 2, -3], [false, 2, 1]].flatMap(way => window.drumPrint.sideGains(...way))");
        var levels = gains.Select(g => 20 * Math.Log10(g)).ToArray();

        foreach (var (level, i) in new[] { 0.0, -3, -3, 0, 0, -1, 0, 0 }.Select((x, i) => (x, i)))
        {
            Assert.Equal(level, levels[i], 1e-9);
        }
    }

    [FactInBrowser]
    public async Task A_page_at_true_level_starts_there_and_still_matches_for_a_blind_test()
    {
        await using var open = await browser.Open(browser.Session.TruePage);
        var (a, b) = (browser.Session.Report.Main.A.Measures.LoudnessLufs, browser.Session.Report.Main.B.Measures.LoudnessLufs);
        var words = await open.Text("#match-words");
        var before = await open.Page.EvaluateAsync<double[]>("() => window.drumPrint.desk.gains()");
        await open.Page.ClickAsync("#blind-start");
        var during = await open.Page.EvaluateAsync<double[]>("() => window.drumPrint.desk.gains()");

        Assert.StartsWith("True level: B is", words, StringComparison.Ordinal);
        Assert.Equal((1.0, 1.0), (before[0], before[1]));
        Assert.Equal(20 * Math.Log10(during[1] / during[0]), a - b, 0.01);
    }

    [FactInBrowser]
    public async Task A_raised_difference_is_capped_and_falls_back_by_itself()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        await open.Page.ClickAsync("#side-D");
        var cap = await open.Page.EvaluateAsync<int>("() => window.drumPrint.desk.state.capDb");
        await open.Page.EvaluateAsync("() => window.drumPrint.desk.boost(60)");
        var raised = await open.Page.EvaluateAsync<double>("() => window.drumPrint.desk.state.boostDb");
        await open.Page.ClickAsync("#side-A");
        await open.Page.ClickAsync("#side-D");

        Assert.InRange(cap, 1, 24);
        Assert.Equal(cap, raised);
        Assert.Equal(0, await open.Page.EvaluateAsync<double>("() => window.drumPrint.desk.state.boostDb"));
    }

    [FactInBrowser]
    public async Task A_file_against_itself_has_nothing_to_raise_and_says_so()
    {
        await using var open = await browser.Open(browser.Session.SamePage);

        Assert.Contains("identical", await open.Text("#verdict"), StringComparison.Ordinal);
        Assert.Contains("Nothing is left", await open.Text("#rest-words"), StringComparison.Ordinal);
        Assert.Equal(0, await open.Page.EvaluateAsync<double>("() => window.drumPrint.desk.state.capDb"));
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task A_comparison_fits_a_desk_in_all_colours_and_axe_finds_no_violation_also_in_a_blind_test()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        await Drawn(open);
        await open.Keep("compare-desktop");
        Assert.InRange(await Width(open), 1, 1280);
        await open.Colour(isDark: true);
        await open.Keep("compare-desktop-dark");
        foreach (var button in new[] { "#side-A", "#side-D", "#blind-start", "#blind-X" })
        {
            await open.Page.ClickAsync(button);
            if (button == "#blind-start")
            {
                continue;
            }

            await open.Colour(isDark: false);
            Assert.Empty(await open.Violations());
            await open.Colour(isDark: true, isForced: true);
            Assert.Empty(await open.Violations());
        }

        Assert.InRange(await Width(open), 1, 1280);
    }

    [FactInBrowser]
    public async Task A_comparison_fits_a_telephone_in_light_and_dark_and_axe_finds_no_violation_also_in_a_blind_test()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, 390);
        await Drawn(open);
        await open.Keep("compare-phone");
        Assert.InRange(await Width(open), 1, 390);
        await open.Colour(isDark: true);
        await open.Keep("compare-phone-dark");
        Assert.Empty(await open.Violations());
        await open.Page.ClickAsync("#side-D");
        Assert.Empty(await open.Violations());
        await open.Page.ClickAsync("#blind-start");
        await open.Page.ClickAsync("#blind-X");
        Assert.Empty(await open.Violations());
        Assert.InRange(await Width(open), 1, 390);
    }

    [FactInBrowser]
    public async Task Two_microphones_and_two_files_that_are_the_same_fit_a_desk_and_axe_finds_no_violation()
    {
        foreach (var (name, file) in new[] { ("mono-desktop", browser.Session.MonoPage), ("same-desktop", browser.Session.SamePage) })
        {
            await using var open = await browser.Open(file);
            await Drawn(open);
            await open.Keep(name);
            Assert.InRange(await Width(open), 1, 1280);
            Assert.Empty(await open.Violations());
        }
    }

    [FactInBrowser]
    public async Task An_album_fits_desk_and_telephone_and_axe_finds_no_violation()
    {
        foreach (var (name, width) in new[] { ("album-desktop", 1280), ("album-phone", 390) })
        {
            await using var open = await browser.Open(browser.Session.AlbumPage, width);
            await open.Keep(name);
            Assert.InRange(await Width(open), 1, width);
            await open.Colour(isDark: width < 600);
            Assert.Empty(await open.Violations());
        }
    }

    [FactInBrowser]
    public async Task In_forced_colours_the_side_that_is_heard_is_told_by_ground_and_underline()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, isDark: true, isForced: true);
        await Drawn(open);
        await open.Page.ClickAsync("#side-B");
        await open.Keep("compare-forced");
        var looks = await open.Page.EvaluateAsync<string[]>("() => ['A', 'B'].map(n => { const e = document.getElementById('side-' + n); return getComputedStyle(e).backgroundColor + getComputedStyle(e.querySelector('b')).textDecorationLine; })");

        Assert.NotEqual(looks[0], looks[1]);
        Assert.EndsWith("underline", looks[1], StringComparison.Ordinal);
    }

    [FactInBrowser]
    public async Task A_page_opens_on_the_print_that_was_changed_with_the_rough_one_tap_away()
    {
        await using var open = await browser.Open(browser.Session.ChangePage);
        var (over, changed, first) = (await open.Text("#over"), await open.Text("#changed"), await open.Text("#verdict"));
        await Drawn(open);
        await open.Keep("change-desktop");
        var prints = await open.Page.EvaluateAsync<string[]>("() => Array.from(document.getElementById('print').options, o => o.textContent)");
        await open.Page.SelectOptionAsync("#print", "90 RoughPreBus");
        await open.Page.WaitForFunctionAsync("() => document.documentElement.dataset.ready && document.getElementById('over').textContent.endsWith('RoughPreBus')");

        Assert.Equal(("Harbour Lights, version 1 · 04 Impact", "Changed: impact: compressor ratio 10 → 4"), (over, changed));
        Assert.Equal(["04 Impact", "90 RoughPreBus", "91 RoughWithBus"], prints);
        Assert.NotEqual(first, await open.Text("#verdict"));
        Assert.Equal("90 RoughPreBus", await open.Page.EvaluateAsync<string>("() => window.drumPrint.data.title"));
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task Two_microphones_have_their_delay_on_top_and_can_be_heard_together()
    {
        await using var mono = await browser.Open(browser.Session.MonoPage);
        await using var impact = await browser.Open(browser.Session.ImpactPage);
        await mono.Page.ClickAsync("#side-S");

        Assert.NotEmpty(await mono.Text("#alignment"));
        Assert.True(await mono.IsPressed("#side-S"));
        Assert.True(await impact.Page.IsHiddenAsync("#side-S"));
        Assert.Equal(0, await impact.Page.Locator("#alignment").CountAsync());
    }

    [FactInBrowser]
    public async Task Start_and_end_have_keys_of_their_own()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        for (var i = 0; i < 3; i++)
        {
            await open.Page.Keyboard.PressAsync("ArrowRight");
        }

        await open.Page.Keyboard.PressAsync("s");
        for (var i = 0; i < 2; i++)
        {
            await open.Page.Keyboard.PressAsync("ArrowRight");
        }

        await open.Page.Keyboard.PressAsync("e");
        var from = browser.Session.Report.Main.Passage.FromS;

        Assert.Equal((Seconds(from + 3), Seconds(from + 5)), (await open.Page.InputValueAsync("#loop-from"), await open.Page.InputValueAsync("#loop-to")));
    }

    [FactInBrowser]
    public async Task Without_scripts_figures_and_tables_are_there_and_dead_controls_are_not()
    {
        foreach (var file in new[] { browser.Session.ImpactPage, browser.Session.AlbumPage })
        {
            await using var open = await browser.OpenWithoutScripts(file);
            await open.Keep($"no-script-{Path.GetFileNameWithoutExtension(file)}");

            Assert.Equal(0, await open.Page.Locator("button:visible, input:visible, select:visible, canvas:visible").CountAsync());
            Assert.True(await open.Page.Locator("td:visible").CountAsync() > 10);
        }
    }

    [FactInBrowser]
    public async Task On_paper_dark_mode_is_dark_on_white_and_nothing_that_plays_is_left()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage, isDark: true);
        await Drawn(open);
        await open.Page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print, ColorScheme = ColorScheme.Dark });
        await open.Painted();
        await open.Keep("paper");
        var look = await open.Page.EvaluateAsync<string[]>("() => { const s = getComputedStyle(document.body); return [s.backgroundColor, s.color]; }");

        Assert.Equal(["rgb(255, 255, 255)", "rgb(29, 27, 24)"], look);
        Assert.Equal(0, await open.Page.Locator("button:visible, input:visible, select:visible").CountAsync());
    }

    [FactInBrowser]
    public async Task An_album_plays_each_song_from_a_quiet_start()
    {
        await using var open = await browser.Open(browser.Session.AlbumPage);
        await open.Page.ClickAsync("#listen");
        await open.Page.ClickAsync("#choices button:nth-child(2)");

        Assert.Equal("Stop", await open.Text("#listen"));
        Assert.True(await open.IsPressed("#choices button:nth-child(2)"));
        Assert.Equal("−20 dB", await open.Text("#volume-out"));
        Assert.StartsWith("Mind your hearing.", await open.Text("#caution"), StringComparison.Ordinal);
        Assert.Empty(open.Complaints);
    }

    [FactInBrowser]
    public async Task Listening_comes_first_with_the_caution_above_it_and_what_was_measured_below()
    {
        foreach (var width in new[] { 1280, 400 })
        {
            await using var open = await browser.Open(browser.Session.ImpactPage, width);
            var tops = await open.Page.EvaluateAsync<double[]>(
                "() => ['verdict', 'caution', 'side-A', 'listen', 'blind', 'measured'].map(id => document.getElementById(id).getBoundingClientRect().top)");
            var height = await open.Page.EvaluateAsync<double>("() => window.innerHeight");

            Assert.Equal(tops.Order(), tops);
            Assert.True(tops[3] < height / 1.5, $"at {width} px the Listen button is {tops[3]} px down");
            Assert.StartsWith("Mind your hearing. Listening starts quietly", await open.Text("#caution"), StringComparison.Ordinal);
            await open.Page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(Browser.Kept, FormattableString.Invariant($"top-{width}.png")) });
        }
    }

    [FactInBrowser]
    public async Task The_verdict_is_one_line_on_a_desktop_and_its_rest_is_not_lost()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        var lines = await open.Page.EvaluateAsync<double>("() => { const e = document.getElementById('verdict'); return e.getBoundingClientRect().height / parseFloat(getComputedStyle(e).lineHeight); }");
        var (line, rest) = (await open.Text("#verdict"), await open.Text("#measured"));

        Assert.Equal(1, lines, 0.01);
        Assert.StartsWith("A and B differ in more than level", line, StringComparison.Ordinal);
        Assert.Equal(browser.Session.Report.Main.Verdict.Length, line.Length + 1 + rest.Length);
        Assert.All(rest.Split(". "), sentence => Assert.Contains(sentence, browser.Session.Report.Main.Verdict, StringComparison.Ordinal));
    }

    [FactInBrowser]
    public async Task The_keyboard_alone_reaches_everything_and_focus_is_seen()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        var reached = new HashSet<string>();
        for (var i = 0; i < 60; i++)
        {
            await open.Page.Keyboard.PressAsync("Tab");
            var (id, outline) = await Focused(open);
            if (id.Length > 0)
            {
                reached.Add(id);
                Assert.NotEqual("none", outline);
            }
        }

        Assert.Empty(new[] { "side-A", "side-B", "side-D", "listen", "volume", "position", "loop-from", "loop-to", "loop-start", "loop-end", "loop-all", "match", "trim", "mono", "rounds", "blind-start", "keys" }.Except(reached));
    }

    [FactInBrowser]
    public async Task Letter_keys_can_be_switched_off()
    {
        await using var open = await browser.Open(browser.Session.ImpactPage);
        await open.Page.UncheckAsync("#keys");

        await open.Page.Keyboard.PressAsync("b");

        Assert.True(await open.IsPressed("#side-A"));
    }

    [FactInBrowser]
    public async Task What_is_not_there_shows_as_a_dash_a_mono_side_as_mono_and_only_a_perfect_null_as_minus_infinity()
    {
        await using var mono = await browser.Open(browser.Session.MonoPage);
        await using var same = await browser.Open(browser.Session.SamePage);

        Assert.Equal("–", await mono.Page.EvaluateAsync<string>("() => window.drumPrint.number(null)"));
        Assert.Equal("Side against middle, dB|mono|mono|none", await Row(mono, "Side against middle"));
        Assert.Equal("Null, matched, dB|||−∞", await Row(same, "Null, matched"));
    }

    [FactInBrowser]
    public async Task The_volume_stays_where_it_is_put()
    {
        await using var open = await browser.Open(browser.Session.MonoPage);
        await open.Page.EvaluateAsync("() => { const v = document.getElementById('volume'); v.value = -32; v.dispatchEvent(new Event('input')); }");

        Assert.Equal("-32", await open.Page.InputValueAsync("#volume"));
        Assert.Equal("−32 dB", await open.Text("#volume-out"));
    }

    private static string Seconds(double value) => value.ToString("0.00", System.Globalization.CultureInfo.InvariantCulture);

    private static Task<string> Row(OpenPage open, string name) => open.Page.EvaluateAsync<string>(
        "name => Array.from(Array.from(document.querySelectorAll('#numbers tr')).find(r => r.textContent.startsWith(name)).cells, c => c.textContent).join('|')", name);

    private static async Task<(string Id, string Outline)> Focused(OpenPage open)
    {
        var parts = await open.Page.EvaluateAsync<string[]>("() => { const e = document.activeElement; return [e?.id ?? '', getComputedStyle(e).outlineStyle]; }");
        return (parts[0], parts[1]);
    }

    private static async Task<double> Position(OpenPage open) =>
        await open.Page.EvaluateAsync<double>("() => window.drumPrint.player.position()") / PageSession.Rate;

    private static Task Drawn(OpenPage open) => open.Page.WaitForSelectorAsync("html[data-drawn]", new PageWaitForSelectorOptions { State = WaitForSelectorState.Attached });

    private static Task<int> Width(OpenPage open) => open.Page.EvaluateAsync<int>("() => document.documentElement.scrollWidth");
}
