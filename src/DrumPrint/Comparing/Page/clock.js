// One clock for the whole page: seconds of the song, with bars and sections where they are known.

function createClock(passage, seconds) {
  const bars = passage.bars ?? [];
  const sections = passage.sections ?? [];
  const last = (list, at) => list.filter(each => each.at_s <= at + 1e-6).at(-1);

  function barWords(at) {
    const index = bars.findLastIndex(bar => bar.at_s <= at + 1e-6);
    if (index < 0 || index + 1 >= bars.length) return index < 0 ? '' : `bar ${bars[index].bar}`;
    const { bar, at_s: from, beats } = bars[index];
    const beat = Math.min(beats, 1 + Math.floor((at - from) / (bars[index + 1].at_s - from) * beats + 1e-6));
    return `bar ${bar}, beat ${beat}`;
  }

  return {
    from: passage.from_s,
    seconds,
    bars,
    sections,

    /** A place in the passage as seconds of the song. */
    song: inside => passage.from_s + inside,

    /** A place in words. */
    words(inside) {
      const at = passage.from_s + inside;
      return [`${number(at, 2)} s`, barWords(at), last(sections, at)?.name].filter(Boolean).join(', ');
    },

    /** Marks for an axis: bars where they are known, else seconds; never more than fit. */
    marks(most) {
      const inside = bars.filter(bar => bar.at_s >= passage.from_s - 1e-6 && bar.at_s < passage.from_s + seconds);
      if (inside.length > 1) {
        const step = Math.ceil(inside.length / most);
        return inside.filter((_, i) => i % step === 0).map((bar, i) => ({ at: bar.at_s - passage.from_s, text: i === 0 ? `bar ${bar.bar}` : String(bar.bar) }));
      }
      const step = [0.5, 1, 2, 5, 10, 20].find(each => seconds / each <= most) ?? 30;
      const marks = [];
      for (let at = Math.ceil(passage.from_s / step) * step; at <= passage.from_s + seconds; at += step) marks.push({ at: at - passage.from_s, text: `${Number(at.toFixed(1))} s` });
      return marks;
    },
  };
}
