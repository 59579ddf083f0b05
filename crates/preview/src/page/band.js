// The band as numbers: what is told of it, put together.

const BEFORE = { o: 0, O: 0, s: 1, S: 1, c: 2, C: 2 };
// Forms 2 and 3 turn back, and 6 is what nothing ties yet: the strands keep their places.
const isWished = (form) => form === 6;
const turns = (form) => form === 2 || form === 3 || isWished(form);

// At which position the strand hangs that ties, and whose color shows; in the row of a leader, only the row says it.
const worksAt = ({ gap, form }) => (form > 3 ? null : form % 2 === 0 ? gap : gap + 1);

export class Band {
  pieces = new Map();
  frame = null;
  chart = null;
  title = "";
  strands = [];
  parts = [];
  rows = 0;
  sets = 0;
  beads = [];
  asides = [];
  joins = [];
  knots = [];
  steps = [];

  /** Takes what is news. */
  take(news) {
    if (news.frame) this.frame = news.frame;
    if (news.chart) this.chart = news.chart;
    for (const { name, from, keep, cut, knots } of news.pieces) {
      const old = from === null ? [] : this.pieces.get(from);
      this.pieces.set(name, [...old.slice(0, keep), ...knots, ...old.slice(keep + cut)]);
    }
    Object.assign(this, { title: news.title, strands: news.strands, parts: news.parts, rows: news.rows, sets: news.sets });
    const asides = news.asides.map((aside) => ({ ...aside, says: news.sentences[aside.says] }));
    Object.assign(this, { beads: news.beads, asides });
    const used = new Set(news.parts.map((part) => part.piece));
    for (const name of this.pieces.keys()) if (!used.has(name)) this.pieces.delete(name);
    this.lay();
  }

  /** Every knot in its place, in the order of tying; every step with its knots, and what is done between them; every row with its knots; by part, its first knot. */
  lay() {
    const { knots, steps } = this;
    knots.length = 0;
    steps.length = 0;
    const byRow = Array.from({ length: this.rows }, () => []);
    this.firsts = [];
    let next = 0;
    this.parts.forEach((part, at) => {
      this.firsts.push(knots.length);
      const doAsides = (tied) => {
        for (; this.asides[next]?.part === at && this.asides[next].after <= tied; next += 1) {
          const aside = this.asides[next];
          const [kind, number] = aside.name;
          steps.push({ part: at, kind, number, from: knots.length, to: knots.length, aside });
        }
      };
      for (const [row, gap, form, thread, number] of this.pieces.get(part.piece)) {
        doAsides(knots.length - this.firsts[at]);
        let step = steps.at(-1);
        if (!step || step.part !== at || step.number !== number || step.aside) {
          step = { part: at, kind: part.kind, number, from: knots.length, to: 0 };
          steps.push(step);
        }
        step.to = knots.length + 1;
        const knot = { at: knots.length, row: row + part.row, gap, form, thread, step: steps.length - 1 };
        byRow[knot.row].push(knot);
        knots.push(knot);
      }
      doAsides(Infinity);
    });
    this.byRow = byRow;
    const isBead = ({ aside, kind }) => aside && kind !== kind.toUpperCase();
    const threaded = new Map(steps.flatMap((step, at) => (isBead(step) ? [[`${step.part} ${step.number}`, at]] : [])));
    for (const bead of this.beads) bead.threadedIn = bead.step ? threaded.get(bead.step.join(" ")) : undefined;
    // In which steps strands go on with another thread.
    this.joins = steps.flatMap(({ aside, from }, step) => (aside?.thread === undefined ? [] : [{ step, from, at: aside.positions[0], thread: aside.thread }]));
    this.follow();
  }

  /** By strand, the knots it goes through, at which position it leaves them, and in which color. */
  follow() {
    const hang = this.strands.map((_, strand) => strand);
    const colors = [...this.strands];
    this.ways = this.strands.map(() => []);
    let joined = 0;
    const join = (tied) => {
      for (; this.joins[joined]?.from <= tied; joined += 1) colors[hang[this.joins[joined].at]] = this.joins[joined].thread;
    };
    for (const knot of this.knots) {
      const { gap } = knot;
      join(knot.at);
      if (isWished(knot.form)) continue;
      const works = worksAt(knot);
      if (works !== null) colors[hang[works]] = knot.thread;
      if (!turns(knot.form)) [hang[gap], hang[gap + 1]] = [hang[gap + 1], hang[gap]];
      for (const at of [gap, gap + 1]) this.ways[hang[at]].push({ knot, to: at, color: colors[hang[at]] });
    }
    join(Infinity);
    this.end = hang.map((strand) => colors[strand]);
  }

  /** By position, the color that hangs there after that number of steps. */
  hanging(steps) {
    const hang = [...this.strands];
    const count = this.steps[steps - 1]?.to ?? 0;
    let joined = 0;
    const join = (tied) => {
      for (; this.joins[joined]?.from <= tied && this.joins[joined].step < steps; joined += 1) hang[this.joins[joined].at] = this.joins[joined].thread;
    };
    for (let at = 0; at < count; at += 1) {
      join(at);
      const { gap, form, thread } = this.knots[at];
      const works = worksAt(this.knots[at]);
      if (works !== null) hang[works] = thread;
      if (!turns(form)) [hang[gap], hang[gap + 1]] = [hang[gap + 1], hang[gap]];
    }
    join(count);
    return hang;
  }

  /** The first knot that is of an older text, if the newest does not tie from that step on. */
  staleFrom(broken) {
    if (!broken) return Infinity;
    const [kind, number] = broken;
    const step = this.steps.find((step) => BEFORE[step.kind] > BEFORE[kind] || (step.kind === kind && step.number >= number));
    return step ? step.from : Infinity;
  }

  /** The steps of that name: one in every set. */
  named(names) {
    const wanted = new Set(names.map(([kind, number]) => kind + number));
    return this.steps.filter((step) => wanted.has(step.kind + step.number));
  }

  /** The knot of a step, or the one after it, where nothing is tied in it; the last one at the end. */
  knotOf(step) {
    return this.knots[Math.min(step.from, this.knots.length - 1)];
  }

  /** Where a step stands, in words. */
  where(step) {
    const part = this.parts[step.part];
    const whole = { o: "Opening", c: "Closing" }[part.kind] ?? `Set ${part.number} of ${this.sets}`;
    const first = this.steps.findIndex((other) => other.part === step.part);
    const count = this.steps.filter((other) => other.part === step.part).length;
    return `${whole} · step ${this.steps.indexOf(step) - first + 1} of ${count}`;
  }

  /** The knot nearest to a place in the picture, if one is there. */
  at(x, y) {
    const { cell, corner } = this.frame;
    const row = (y - corner[1]) / cell[1] - 1;
    const gap = (x - corner[0]) / cell[0] - 0.5;
    let best = null;
    for (const near of [Math.floor(row) - 1, Math.floor(row), Math.ceil(row), Math.ceil(row) + 1]) {
      for (const knot of this.byRow[near] ?? []) {
        const far = Math.hypot(knot.row - row, (knot.gap - gap) * 0.8);
        if (far < 0.95 && (!best || far < best.far)) best = { knot, far };
      }
    }
    return best?.knot ?? null;
  }
}
