// The picture: the part of the band that is in sight, painted on a canvas that stays in place while one scrolls.
// A canvas and not elements: 100,000 knots are 100,000 numbers, and only those in sight are painted.

import { Ink, strand } from "./ink.js";
import { sign } from "./chart.js";

const GONE = { shown: "#888888", rim: "#444444", ink: "#000000" };
const MARGIN = 12;

export class Picture {
  scale = 0;
  fits = true;
  waiting = false;
  chart = false;

  /** `state` is asked at every painting: band, colors, staleFrom, lit, tied. */
  constructor(scroll, room, canvas, state) {
    Object.assign(this, { scroll, room, canvas, state });
    this.paper = canvas.getContext("2d");
    this.ink = new Ink(() => this.ask());
    scroll.addEventListener("scroll", () => this.ask());
    new ResizeObserver(() => this.size()).observe(scroll);
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => this.ask());
  }

  /** Paints before the next frame, once, however often it is asked. */
  ask() {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame(() => {
      this.waiting = false;
      this.paint();
    });
  }

  /** The size of the whole, in tenths of a millimeter. */
  extent() {
    const { frame, rows } = this.state().band;
    return frame ? [frame.size[0], frame.size[1] + rows * frame.cell[1]] : [1, 1];
  }

  /** Makes room for the whole band in the size that is wanted. */
  size() {
    const { band } = this.state();
    if (!band.frame) return;
    const [wide, high] = this.extent();
    const { clientWidth, clientHeight } = this.scroll;
    if (this.fits) this.scale = Math.min((clientWidth - MARGIN * 2) / wide, Math.max((clientHeight - MARGIN * 2) / high, 0.9), 2.2);
    const ratio = devicePixelRatio;
    this.room.style.width = `${Math.max(clientWidth, wide * this.scale + MARGIN * 2)}px`;
    this.room.style.height = `${Math.max(clientHeight, high * this.scale + MARGIN * 2)}px`;
    for (const [side, length] of [["width", clientWidth], ["height", clientHeight]]) {
      this.canvas.style[side] = `${length}px`;
      if (this.canvas[side] !== Math.round(length * ratio)) this.canvas[side] = Math.round(length * ratio);
    }
    this.ask();
  }

  /** Larger or smaller, around the middle of what is in sight. */
  zoom(by) {
    const { scroll } = this;
    const middle = (scroll.scrollTop + scroll.clientHeight / 2) / scroll.scrollHeight;
    this.fits = by === 0;
    this.scale = Math.min(12, Math.max(0.08, this.scale * (by || 1)));
    this.size();
    scroll.scrollTop = middle * scroll.scrollHeight - scroll.clientHeight / 2;
  }

  /** Where the upper left corner of the picture lies in the window of the canvas. */
  origin() {
    const [wide] = this.extent();
    const room = Math.max(this.scroll.clientWidth, wide * this.scale + MARGIN * 2);
    return [(room - wide * this.scale) / 2 - this.scroll.scrollLeft, MARGIN - this.scroll.scrollTop];
  }

  /** The knot under a pointer. */
  knotAt(event) {
    const box = this.canvas.getBoundingClientRect();
    const [left, top] = this.origin();
    return this.state().band.at((event.clientX - box.left - left) / this.scale, (event.clientY - box.top - top) / this.scale);
  }

  /** Scrolls to a knot if it is not in sight. */
  reveal(knot) {
    const { frame } = this.state().band;
    const y = MARGIN + (frame.corner[1] + (knot.row + 1) * frame.cell[1]) * this.scale;
    const { scrollTop, clientHeight } = this.scroll;
    if (y < scrollTop + 20 || y > scrollTop + clientHeight - 20) this.scroll.scrollTop = y - clientHeight / 2;
  }

  paint() {
    const { band } = this.state();
    const { paper, canvas } = this;
    paper.setTransform(1, 0, 0, 1, 0, 0);
    paper.clearRect(0, 0, canvas.width, canvas.height);
    if (!band.frame || !this.scale) return;
    this.ink.use(band.frame);
    const ratio = devicePixelRatio;
    const full = this.scale * ratio;
    const [left, top] = this.origin().map((side) => side * ratio);
    const at = (row, gap) => [
      left + (band.frame.corner[0] + (gap + 0.5) * band.frame.cell[0]) * full,
      top + (band.frame.corner[1] + (row + 1) * band.frame.cell[1]) * full,
    ];
    const high = band.frame.cell[1] * full;
    const first = Math.max(0, Math.floor((-top / full - band.frame.corner[1]) / band.frame.cell[1]) - 3);
    const last = Math.min(band.rows - 1, first + Math.ceil(canvas.height / high) + 6);
    paper.setTransform(full, 0, 0, full, left, top);
    this.ends(band);
    this.strands(band, first, last);
    paper.setTransform(1, 0, 0, 1, 0, 0);
    this.knots(band, first, last, at, full);
    Object.assign(canvas.dataset, { knots: band.knots.length, lit: this.state().lit.size, stale: this.state().staleFrom });
    performance.mark("painted");
  }

  thread(number) {
    return this.state().colors[number] ?? GONE;
  }

  /** Above the first row and below the last. */
  ends(band) {
    const { paper } = this;
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
      if (frame.neck) this.neck(frame.neck);
    });
    paper.globalAlpha = this.state().staleFrom < Infinity ? 0.25 : 1;
    clipped(edge + down, 1e9, () => {
      paper.translate(0, down);
      const below = fade(frame.size[1], frame.size[1] - frame.fade[1]);
      lines.slice(joins).forEach(([, line], at) => strand(paper, line, this.thread(this.state().end[at]), frame.thickness, below));
    });
    paper.globalAlpha = 1;
  }

  neck([middle, half, thread]) {
    const { paper } = this;
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
  strands(band, first, last) {
    const { paper } = this;
    const { corner, cell, thickness } = band.frame;
    const column = (position) => corner[0] + position * cell[0];
    const line = (row) => corner[1] + (row + 1) * cell[1];
    const { staleFrom, tied } = this.state();
    band.ways.forEach((all, strandNumber) => {
      // What is not tied yet hangs down.
      const way = tied < Infinity ? all.slice(0, all.findIndex(({ knot }) => knot.at >= tied) >>> 0) : all;
      const path = new Path2D();
      let from = lowest(way, first) - 1;
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
      }
      if (from >= way.length) {
        path.lineTo(column(position), line(row + 1));
        path.lineTo(column(position), line(band.rows) + 0.5);
      }
      paper.globalAlpha = staleFrom < Infinity ? 0.1 : 1;
      strand(paper, path, this.thread(band.strands[strandNumber]), thickness);
    });
    paper.globalAlpha = 1;
  }

  knots(band, first, last, at, scale) {
    const { staleFrom, lit, tied } = this.state();
    const { paper } = this;
    for (let row = first; row <= last; row += 1) {
      for (const knot of band.byRow[row]) {
        const place = at(knot.row, knot.gap);
        paper.globalAlpha = knot.at >= tied ? 0.1 : knot.at >= staleFrom ? 0.34 : 1;
        if (this.chart) sign(paper, knot.form, this.thread(knot.thread), place, band.frame.cell, scale);
        else this.ink.knot(paper, knot.form, this.thread(knot.thread), place, scale);
      }
    }
    paper.globalAlpha = 1;
    paper.strokeStyle = getComputedStyle(this.canvas).getPropertyValue("--lit");
    paper.lineWidth = Math.max(2, scale * 2);
    for (let row = first; lit.size > 0 && row <= last; row += 1) {
      for (const knot of band.byRow[row]) {
        if (!lit.has(knot.step)) continue;
        paper.beginPath();
        paper.ellipse(...at(knot.row, knot.gap), band.frame.cell[0] * scale * 0.95, band.frame.cell[1] * scale * 0.62, 0, 0, 7);
        paper.stroke();
      }
    }
  }
}

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
