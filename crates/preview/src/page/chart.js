// The working chart. The program says which shapes lie where; here they are put on the canvas.

import { ring, threadOf } from "./ink.js";

// How clearly a knot is seen that is still to come, and one that is of an older text.
const TO_COME = 0.42;
const STALE = 0.26;
const WISHED = 6;

export class Chart {
  /** The largest that it is shown without being asked. */
  largest = 1.5;
  outlines = new Map();

  /** `state` is asked at every painting: band, colors, staleFrom, lit, tied. */
  constructor(state) {
    this.state = state;
  }

  /** The size of the whole. */
  extent() {
    return this.state().band.chart.size;
  }

  /** The block that shows a knot, and which of its knots that is. */
  of(knot) {
    const { band } = this.state();
    const { part } = band.steps[knot.step];
    return [band.chart.blocks[band.chart.blockOf[part]], knot.at - band.firsts[part]];
  }

  /** The middle of a knot. */
  place(knot) {
    const [block, at] = this.of(knot);
    return block?.places[at];
  }

  /** The knot at a place, if one is there: of the set in hand, if its block is the one, else of the first that it shows. */
  at(x, y) {
    const { band, tied } = this.state();
    const [wide, high] = band.chart.cell;
    let best = null;
    band.chart.blocks.forEach((block, number) => {
      block.places.forEach(([left, top], at) => {
        const far = Math.hypot((left - x) / wide, (top - y) / high);
        if (far < 0.6 && (!best || far < best.far)) best = { block, number, at, far };
      });
    });
    if (!best) return null;
    const now = this.now(tied);
    const part = now !== null && band.chart.blockOf[now] === best.number ? now : best.block.part;
    return band.knots[band.firsts[part] + best.at] ?? null;
  }

  /** The part in hand after that number of knots; null when all are tied. */
  now(tied) {
    const { band } = this.state();
    const last = tied < Infinity ? band.knots[tied - 1] : null;
    return last ? band.steps[last.step].part : null;
  }

  thread(number) {
    return threadOf(this.state().colors, number);
  }

  /** Paints what is in sight; the upper left corner lies at `left` and `top`, and a pixel of the chart is `full` pixels. */
  paint(paper, { left, top, full }) {
    const { band } = this.state();
    const { chart } = band;
    const style = getComputedStyle(paper.canvas);
    const tones = new Map(["ink", "soft", "stripe", "card"].map((name) => [name, style.getPropertyValue(`--${name}`).trim()]));
    const tone = (name) => tones.get(name);
    const [high, from] = [chart.cell[1], -top / full];
    const to = from + paper.canvas.height / full;
    const seen = (y) => y > from - high * 2 && y < to + high * 2;
    const way = { paper, tone, seen, letters: full > 0.35 };
    paper.setTransform(full, 0, 0, full, left, top);
    paper.lineJoin = "round";
    const marks = chart.marks.filter((mark) => seen((mark.at ?? mark.area)[1]));
    for (const mark of marks) if (mark.sign === "stripe") this.mark(way, mark);
    for (const block of chart.blocks) this.cords(way, block);
    this.ends(way, chart);
    const isOver = (mark) => mark.sign === "bead" || mark.sign === "join";
    for (const mark of marks) if (mark.sign !== "stripe" && !isOver(mark)) this.mark(way, mark);
    chart.blocks.forEach((block, number) => this.ribbons(way, block, number));
    for (const mark of marks) if (isOver(mark)) this.mark(way, mark);
    paper.globalAlpha = 1;
  }

  /** The outline of a shape, read once. */
  outline({ outline }) {
    if (!this.outlines.has(outline)) {
      if (this.outlines.size > 2000) this.outlines.clear();
      this.outlines.set(outline, new Path2D(outline));
    }
    return this.outlines.get(outline);
  }

  cords({ paper, tone }, block) {
    const { band, staleFrom } = this.state();
    paper.globalAlpha = staleFrom <= band.firsts[block.part] ? STALE : 1;
    for (const [thread, line] of block.cords) {
      const path = this.outline({ outline: line });
      for (const [color, width] of [[tone("soft"), 3.6], [this.thread(thread).shown, 2.2]]) {
        paper.strokeStyle = color;
        paper.lineWidth = width;
        paper.stroke(path);
      }
    }
    paper.globalAlpha = 1;
  }

  /** What is made at the ends: each strand with a rim, so that one sees which lies over which. */
  ends({ paper, tone }, { ends, thickness }) {
    for (const [thread, line, isTurn] of ends) {
      const path = this.outline({ outline: line });
      paper.lineCap = isTurn ? "round" : "butt";
      for (const [color, width] of [[tone("ink"), thickness], [this.thread(thread).shown, thickness - 2.2]]) {
        paper.strokeStyle = color;
        paper.lineWidth = width;
        paper.stroke(path);
      }
    }
    paper.lineCap = "butt";
  }

  ribbons(way, block, number) {
    const { band } = this.state();
    const { paper, tone, seen } = way;
    const first = band.firsts[block.part];
    const until = this.until(block, number);
    const steps = this.litIn(number);
    const shapes = band.chart.shapes.ribbons;
    const glowing = [];
    block.places.forEach((place, at) => {
      const knot = band.knots[first + at];
      if (!knot || !seen(place[1])) return;
      const clear = at >= until.stale ? STALE : at >= until.tied ? TO_COME : 1;
      // What nothing ties yet is pale in any case.
      this.shape(way, place, shapes[knot.form], this.thread(knot.thread), knot.form === WISHED ? Math.min(clear, 0.5) : clear);
      if (steps.has(band.steps[knot.step].number)) glowing.push([place, knot]);
    });
    paper.globalAlpha = 1;
    for (const [[x, y], knot] of glowing) {
      paper.save();
      paper.translate(x, y);
      ring(paper, 5, () => paper.stroke(this.outline(shapes[knot.form])));
      paper.restore();
    }
  }

  /** How many knots of a block are tied, and how many of the newest text. */
  until(block, number) {
    const { band, tied, staleFrom } = this.state();
    const now = this.now(tied);
    const stale = staleFrom - band.firsts[block.part];
    if (now === null) return { tied: Infinity, stale };
    if (band.chart.blockOf[now] === number) return { tied: tied - band.firsts[now], stale };
    return { tied: now > block.part ? Infinity : 0, stale };
  }

  /** The numbers of the steps that are lit in the parts that a block shows. */
  litIn(number) {
    const { band, lit } = this.state();
    const steps = new Set();
    for (const at of lit) {
      const { part, number: step, aside } = band.steps[at] ?? {};
      if (!aside && band.chart.blockOf[part] === number) steps.add(step);
    }
    return steps;
  }

  /** A shape in the color of a thread, with its letter. What is pale still hides what is under it. */
  shape({ paper, tone, letters }, [x, y], shape, thread, clear = 1) {
    const outline = this.outline(shape);
    paper.save();
    paper.translate(x, y);
    if (clear < 1) {
      paper.fillStyle = tone("card");
      paper.fill(outline);
    }
    paper.globalAlpha = clear;
    paper.fillStyle = thread.shown;
    paper.fill(outline);
    paper.strokeStyle = tone("ink");
    paper.lineWidth = 1.1;
    paper.stroke(outline);
    paper.globalAlpha = Math.min(1, clear * 2);
    if (letters) write(paper, thread.letter, shape.seat, { bold: true, middle: true, color: clear < 1 ? tone("ink") : thread.ink });
    paper.restore();
  }

  mark(way, mark) {
    const { paper, tone } = way;
    const { at, area } = mark;
    const { shapes } = this.state().band.chart;
    const ink = { color: tone("ink") };
    const filled = (shape, color) => {
      paper.fillStyle = color;
      paper.fill(shape);
    };
    const signs = {
      stripe: () => {
        paper.fillStyle = tone("stripe");
        paper.fillRect(...area);
      },
      text: () => write(paper, mark.text, at, { ...ink, size: mark.size, bold: mark.bold, base: true }),
      name: () => write(paper, this.thread(mark.thread).name, at, { ...ink, base: true }),
      position: () => write(paper, mark.number, at, { color: tone("soft"), size: 9.6, base: true, middle: true }),
      hanging: () => this.shape(way, at, shapes.hanging, this.thread(mark.thread)),
      sample: () => this.shape(way, at, shapes.ribbons[mark.form], { shown: tone("card"), ink: tone("ink"), letter: "" }),
      bead: () => {
        const ring = new Path2D();
        ring.arc(...at, mark.radius, 0, 2 * Math.PI);
        filled(ring, mark.color);
        paper.strokeStyle = tone("ink");
        paper.lineWidth = 1.8;
        paper.stroke(ring);
        if (way.letters) write(paper, mark.number, at, { color: mark.ink, middle: true, bold: true });
      },
      join: () => {
        const dot = new Path2D();
        dot.arc(...at, 4.6, 0, 2 * Math.PI);
        filled(dot, tone("card"));
        dot.moveTo(at[0] - 3.2, at[1] + 3.2);
        dot.lineTo(at[0] + 3.2, at[1] - 3.2);
        paper.strokeStyle = tone("ink");
        paper.lineWidth = 1.4;
        paper.stroke(dot);
      },
      number: () => {
        const tag = shapes.tags[Number(mark.rightward)];
        paper.save();
        paper.translate(...at);
        filled(this.outline(tag), tone("stripe"));
        write(paper, mark.number, tag.seat, { ...ink, middle: true, bold: mark.number % 10 === 0 });
        paper.restore();
      },
      label: () => {
        const [x, y, width, height] = area;
        const box = new Path2D();
        box.roundRect(x, y, width, height, 3);
        filled(box, tone("card"));
        paper.strokeStyle = tone("soft");
        paper.lineWidth = 1;
        paper.stroke(box);
        write(paper, mark.text, [x + width / 2, y + height / 2], { ...ink, middle: true, slanted: true });
      },
    };
    signs[mark.sign]();
  }
}

const write = (paper, text, [x, y], { size = 11, bold = false, slanted = false, middle = false, base = false, color }) => {
  paper.font = `${slanted ? "italic " : ""}${bold ? "bold " : ""}${size}px system-ui, sans-serif`;
  paper.textAlign = middle ? "center" : "left";
  paper.textBaseline = base ? "alphabetic" : "middle";
  paper.fillStyle = color;
  paper.fillText(text, x, y);
};
