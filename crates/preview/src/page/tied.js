// The band as it will look.

import { Ink, ring, strand, threadOf } from "./ink.js";

/** Whether a bead is threaded after that many knots and steps; one at the end is when all is tied. */
export const isThreaded = ({ after, threadedIn }, tied, done) => (threadedIn === undefined ? after <= tied : threadedIn < done);

export class Tied {
  /** The largest that it is shown without being asked. */
  largest = 2.2;

  /** `state` is asked at every painting: band, colors, staleFrom, lit, tied, done, end. `ready` paints again. */
  constructor(state, ready) {
    this.state = state;
    this.ink = new Ink(ready);
  }

  /** The size of the whole, in tenths of a millimeter. */
  extent() {
    const { frame, rows } = this.state().band;
    return [frame.size[0], frame.size[1] + rows * frame.cell[1]];
  }

  /** The middle of a knot. */
  place({ row, gap }) {
    const { corner, cell } = this.state().band.frame;
    return [corner[0] + (gap + 0.5) * cell[0], corner[1] + (row + 1) * cell[1]];
  }

  /** The knot at a place, if one is there. */
  at(x, y) {
    return this.state().band.at(x, y);
  }

  thread(number) {
    return threadOf(this.state().colors, number);
  }

  /** Paints what is in sight; the upper left corner lies at `left` and `top`, and a tenth of a millimeter is `full` pixels. */
  paint(paper, { left, top, full }) {
    const { band } = this.state();
    this.ink.use(band.frame);
    const at = (knot) => this.place(knot).map((side, axis) => [left, top][axis] + side * full);
    const high = band.frame.cell[1] * full;
    const first = Math.max(0, Math.floor((-top / full - band.frame.corner[1]) / band.frame.cell[1]) - 3);
    const last = Math.min(band.rows - 1, first + Math.ceil(paper.canvas.height / high) + 6);
    paper.setTransform(full, 0, 0, full, left, top);
    this.ends(paper, band);
    this.strands(paper, band, first, last);
    paper.setTransform(1, 0, 0, 1, 0, 0);
    this.knots(paper, band, [first, last], at, full);
    paper.setTransform(full, 0, 0, full, left, top);
    this.beads(paper, band);
    paper.setTransform(1, 0, 0, 1, 0, 0);
  }

  /** Beads, with light from above, over the knots. */
  beads(paper, { beads, frame: { cell, corner } }) {
    const { staleFrom, tied, done, lit } = this.state();
    for (const bead of beads) {
      if (!isThreaded(bead, tied, done)) continue;
      const { at, radius, color, rim, after, threadedIn } = bead;
      const [x, y] = [corner[0] + at[0] * cell[0], corner[1] + at[1] * cell[1]];
      const disk = (right, down, part, paint) => {
        paper.beginPath();
        paper.arc(x + right * radius, y + down * radius, part * radius, 0, 2 * Math.PI);
        paper.fillStyle = paint;
        paper.fill();
      };
      paper.globalAlpha = after >= staleFrom ? 0.34 : 1;
      disk(0.08, 0.14, 1.04, "#140c1c48");
      disk(0, 0, 1, rim);
      disk(0, 0, 0.94, color);
      disk(-0.16, -0.22, 0.66, "#ffffff2a");
      disk(-0.3, -0.38, 0.24, "#ffffffb3");
      if (!lit.has(threadedIn)) continue;
      paper.globalAlpha = 1;
      paper.beginPath();
      paper.arc(x, y, 1.25 * radius, 0, 2 * Math.PI);
      ring(paper, 4, () => paper.stroke());
    }
    paper.globalAlpha = 1;
  }

  /** Above the first row and below the last. */
  ends(paper, band) {
    const { frame, rows } = band;
    const down = rows * frame.cell[1];
    const edge = frame.corner[1] + frame.cell[1];
    const fade = (from, to) => (color) => {
      if (from === to) return color;
      const paint = paper.createLinearGradient(0, from, 0, to);
      paint.addColorStop(0, `${color}00`);
      paint.addColorStop(0.7, color);
      return paint;
    };
    const lines = frame.cords.map(([thread, line]) => [thread, new Path2D(line)]);
    const joins = lines.length - band.strands.length;
    const clipped = (from, to, work) => {
      paper.save();
      paper.beginPath();
      paper.rect(-1e6, from, 2e6, to - from);
      paper.clip();
      work();
      paper.restore();
    };
    clipped(-1e6, edge, () => {
      for (const [thread, line] of lines) strand(paper, line, this.thread(thread), frame.thickness, fade(0, frame.fade[0]));
      if (frame.neck) this.neck(paper, frame.neck);
      this.made(paper, frame, 0);
    });
    paper.globalAlpha = this.state().staleFrom < Infinity ? 0.25 : 1;
    clipped(edge + down, 1e9, () => {
      paper.translate(0, down);
      const below = fade(frame.size[1], frame.size[1] - frame.fade[1]);
      lines.slice(joins).forEach(([, line], at) => strand(paper, line, this.thread(this.state().end[at]), frame.thickness, below));
    });
    paper.globalAlpha = this.state().staleFrom < Infinity ? 0.25 : 1;
    paper.save();
    paper.translate(0, down);
    this.made(paper, frame, 1);
    paper.restore();
    paper.globalAlpha = 1;
  }

  /** What is made of the strands at an end: what lies over something else comes after it. */
  made(paper, frame, end) {
    for (const [thread, line, isTurn] of frame.ends[end]) {
      paper.lineCap = isTurn ? "round" : "butt";
      strand(paper, new Path2D(line), this.thread(thread), frame.thickness);
    }
    paper.lineCap = "butt";
  }

  neck(paper, [middle, half, thread]) {
    const high = half[1] / 1.5;
    for (const step of [-1, 0, 1]) {
      paper.beginPath();
      paper.roundRect(middle[0] - half[0], middle[1] + step * high - high / 2, half[0] * 2, high, high / 2);
      paper.fillStyle = this.thread(thread).shown;
      paper.fill();
      paper.strokeStyle = this.thread(thread).rim;
      paper.stroke();
    }
  }

  /** The strands between the knots in sight. */
  strands(paper, band, first, last) {
    const { corner, cell, thickness } = band.frame;
    const column = (position) => corner[0] + position * cell[0];
    const line = (row) => corner[1] + (row + 1) * cell[1];
    const { staleFrom, tied } = this.state();
    band.ways.forEach((all, strandNumber) => {
      // What is not tied yet hangs down.
      const way = tied < Infinity ? all.slice(0, all.findIndex(({ knot }) => knot.at >= tied) >>> 0) : all;
      let path = new Path2D();
      let from = lowest(way, first) - 1;
      let color = (way[from] ?? way[0])?.color ?? band.strands[strandNumber];
      const lines = [[color, path]];
      let position = from >= 0 ? way[from].to : strandNumber;
      const start = from >= 0 ? way[from].knot : null;
      let row = start ? start.row : -1;
      path.moveTo(start ? column(start.gap + 0.5) : column(position), line(row));
      for (from += 1; from < way.length && row <= last; from += 1) {
        const { knot, to } = way[from];
        if (knot.row > row + 1) {
          path.lineTo(column(position), line(row + 1));
          path.lineTo(column(position), line(knot.row - 1));
        }
        path.lineTo(column(knot.gap + 0.5), line(knot.row));
        position = to;
        row = knot.row;
        if (way[from].color !== color) {
          color = way[from].color;
          path = new Path2D();
          path.moveTo(column(knot.gap + 0.5), line(row));
          lines.push([color, path]);
        }
      }
      if (from >= way.length) {
        path.lineTo(column(position), line(row + 1));
        path.lineTo(column(position), line(band.rows) + 0.5);
      }
      paper.globalAlpha = staleFrom < Infinity ? 0.1 : 1;
      for (const [hue, piece] of lines) strand(paper, piece, this.thread(hue), thickness);
    });
    paper.globalAlpha = 1;
  }

  knots(paper, band, [first, last], at, scale) {
    const { staleFrom, lit, tied } = this.state();
    for (let row = first; row <= last; row += 1) {
      for (const knot of band.byRow[row]) {
        const place = at(knot);
        paper.globalAlpha = knot.at >= tied ? 0.1 : knot.at >= staleFrom ? 0.34 : 1;
        this.ink.knot(paper, knot.form, this.thread(knot.thread), place, scale);
      }
    }
    paper.globalAlpha = 1;
    for (let row = first; lit.size > 0 && row <= last; row += 1) {
      for (const run of sideBySide(band.byRow[row].filter((knot) => lit.has(knot.step)))) {
        const [[x, y], [end]] = [at(run[0]), at(run.at(-1))];
        const [wide, high] = [band.frame.cell[0] * scale * 0.95, band.frame.cell[1] * scale * 0.62];
        paper.beginPath();
        paper.roundRect(x - wide, y - high, end - x + 2 * wide, 2 * high, Math.min(wide, high));
        ring(paper, Math.max(4, scale * 4), () => paper.stroke());
      }
    }
  }
}

/** Knots of a row in runs of neighbors: the row of a leader has one frame, not a ring for each of its knots. */
const sideBySide = (knots) => {
  const runs = [];
  for (const knot of [...knots].sort((one, other) => one.gap - other.gap)) {
    if (runs.at(-1)?.at(-1).gap === knot.gap - 1) runs.at(-1).push(knot);
    else runs.push([knot]);
  }
  return runs;
};

/** The first on a strand's way whose row is not before `row`. */
const lowest = (way, row) => {
  let [low, high] = [0, way.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (way[middle].knot.row < row) low = middle + 1;
    else high = middle;
  }
  return low;
};
