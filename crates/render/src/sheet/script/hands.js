// What the hands do: the strands before and after a step, brackets over the pairs that are tied, and where each strand goes.

const COLUMN = 20;
const WAY = 48;
// How a bead is threaded: its number among what is explained.
const BEAD_HOW = 6;
const column = (position) => (position + 0.5) * COLUMN;

const chip = (thread, position, { hand = false, number = 0 } = {}) => {
  const { name, letter } = band.threads[thread];
  const item = document.createElement("li");
  item.className = `t${thread}${hand ? " hand" : ""}`;
  item.title = name;
  const add = (tag, text, set = {}) => item.append(Object.assign(document.createElement(tag), { textContent: text }, set));
  add("small", position + 1);
  add("span", letter, { ariaHidden: "true" });
  if (number > 0) add("sub", number);
  add("span", ` ${name}${hand ? `, ${band.words.hand}` : ""}`, { className: "heard" });
  return item;
};

// A step as it is drawn: its knots, how the strands hang before and after, and which of them tie.
const doing = (part, step) => {
  const passage = passageOf(part);
  const hang = hangingAt(part, step);
  const after = [...hang];
  const [threads, threadsAfter] = [threadsAt(part, step), threadsAt(part, step + 1)];
  const working = new Set((passage.joins ?? []).filter(([at]) => at === step).map(([, strand]) => strand));
  const knots = [];
  const free = hang.map(() => 0);
  // What nothing ties yet moves no strand.
  const tied = passage.wished ? [] : passage.knots;
  for (const number of tied.slice(knotsFrom(passage, step), passage.ends[step])) {
    const { gap, kind } = knotOf(number);
    const pair = [after[gap], after[gap + 1]];
    if (!worksFromLeft(kind)) pair.reverse();
    working.add(pair[0]);
    if (passage.meets.includes(step)) working.add(pair[1]);
    const layer = Math.max(free[gap], free[gap + 1]);
    free[gap] = free[gap + 1] = layer + 1;
    knots.push({ gap, kind, layer, works: pair[0] });
    tie(after, number);
  }
  const beads = (passage.beads ?? []).filter(([, , , , at]) => at === step);
  for (const [, position, strands] of beads) hang.slice(position, position + strands).forEach((strand) => working.add(strand));
  const made = part.made?.[step] ?? beads.map(() => BEAD_HOW);
  return { threads, threadsAfter, hang, after, working, knots, made, layers: Math.max(1, ...free) };
};

// Gaps that share a strand belong together: first and last gap of each such group.
const groups = (knots) => {
  const gaps = [...new Set(knots.map((knot) => knot.gap))].sort((one, other) => one - other);
  const found = [];
  for (const gap of gaps) {
    const last = found.at(-1);
    if (last && gap === last[1] + 1) last[1] = gap;
    else found.push([gap, gap]);
  }
  return found;
};

// Numbers for strands of one thread that change places with each other: nothing else tells them apart.
const numbersOf = ({ threads, hang, after, knots }) => {
  const numbers = new Map();
  for (const [first, last] of groups(knots)) {
    for (const thread of new Set(hang.slice(first, last + 2).map((strand) => threads[strand]))) {
      const alike = (order) => order.slice(first, last + 2).filter((strand) => threads[strand] === thread);
      const old = alike(hang);
      if (old.join() !== alike(after).join()) old.forEach((strand, at) => numbers.set(strand, at + 1));
    }
  }
  return numbers;
};

const bracketsOf = ({ hang, knots }) => {
  const bracket = ([first, last]) => {
    const ticks = Array.from({ length: last - first }, (_, at) => `M${column(first + 1 + at)} 3v3`);
    return svgElement("path", { d: `M${column(first)} 9V3H${column(last + 1)}V9${ticks.join("")}` });
  };
  return [hang.length, groups(knots).map(bracket)];
};

// Each strand's line from its place before to its place after; those that tie are drawn last, and wide.
const waysOf = ({ threads, hang, working, knots, layers }) => {
  const lines = new Map(hang.map((strand, position) => [strand, `M${column(position)} 0`]));
  const now = [...hang];
  const high = (WAY - 12) / layers;
  const add = (strand, text) => lines.set(strand, lines.get(strand) + text);
  for (const { gap, kind, layer, works } of knots) {
    const [top, bottom] = [6 + layer * high, 6 + (layer + 1) * high];
    for (const position of [gap, gap + 1]) {
      const [strand, other] = [now[position], gap + gap + 1 - position];
      add(strand, `L${column(position)} ${top}`);
      if (changesPlaces(kind)) add(strand, `L${column(other)} ${bottom}`);
      else if (strand === works) {
        const out = column(position) + (column(other) - column(position)) * 1.3;
        add(strand, `C${out} ${top} ${out} ${bottom} ${column(position)} ${bottom}`);
      }
    }
    if (changesPlaces(kind)) [now[gap], now[gap + 1]] = [now[gap + 1], now[gap]];
  }
  now.forEach((strand, position) => add(strand, `L${column(position)} ${WAY}`));
  const touched = new Set(knots.flatMap(({ gap }) => [gap, gap + 1]));
  const rank = (strand) => (working.has(strand) ? 2 : touched.has(hang.indexOf(strand)) ? 1 : 0);
  const drawn = [...hang].sort((one, other) => rank(one) - rank(other));
  const line = (strand) => {
    const wide = [2, 3, 5][rank(strand)];
    const d = lines.get(strand);
    const color = band.threads[threads[strand]].color;
    return [
      svgElement("path", { d, class: rank(strand) === 0 ? "aside" : "rim", "stroke-width": wide + 2 }),
      svgElement("path", { d, stroke: color, "stroke-width": wide }),
    ];
  };
  return [hang.length, drawn.flatMap(line)];
};

const drawInto = (name, high, [strands, shapes]) => {
  id(name).setAttribute("viewBox", `0 0 ${strands * COLUMN} ${high}`);
  id(name).replaceChildren(...shapes);
};

const showHands = (deed) => {
  const numbers = numbersOf(deed);
  const row = (list, order, threads) => {
    const chips = order.map((strand, position) =>
      chip(threads[strand], position, { hand: deed.working.has(strand), number: numbers.get(strand) }));
    id(list).replaceChildren(...chips);
  };
  row("now", deed.hang, deed.threads);
  row("then", deed.after, deed.threadsAfter);
  drawInto("brackets", 10, bracketsOf(deed));
  drawInto("ways", WAY, waysOf(deed));
  id("hands").style.setProperty("--strands", deed.hang.length);
  showHow(new Set(deed.knots.map((knot) => knot.kind)), deed.made);
  followHand();
};

// How the knots of a step are tied, and what else is made in it; nothing to unfold where there is nothing.
const showHow = (kinds, made) => {
  const all = [...document.querySelectorAll("#how [data-kind], #how [data-made]")];
  for (const how of all) {
    how.hidden = !kinds.has(Number(how.dataset.kind)) && !made.includes(Number(how.dataset.made));
  }
  id("how").hidden = all.every((how) => how.hidden);
};

// Where the strands scroll by themselves, the one that is taken in hand comes into view, and where it goes if both fit.
const followHand = () => {
  const hands = id("hands");
  const span = (row) => {
    const chips = [...id(row).querySelectorAll(".hand")].map((item) => item.getBoundingClientRect());
    return chips.length > 0 && [Math.min(...chips.map(({ left }) => left)), Math.max(...chips.map(({ right }) => right))];
  };
  const { left, width } = hands.getBoundingClientRect();
  const [now, then] = [span("now"), span("then")];
  if (!now) return;
  const both = then ? [Math.min(now[0], then[0]), Math.max(now[1], then[1])] : now;
  const [from, to] = both[1] - both[0] < width ? both : now;
  if (from < left || to > left + width) hands.scrollLeft += (from + to - width) / 2 - left;
};

const showEnd = () => {
  showHow(new Set(), []);
  id("now").replaceChildren(...band.end.map((thread, position) => chip(thread, position)));
  id("then").replaceChildren();
  drawInto("brackets", 10, [band.end.length, []]);
  drawInto("ways", WAY, [band.end.length, []]);
};
