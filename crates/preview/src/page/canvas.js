// The picture: the part of the band that is in sight, painted on a canvas that stays in place while one scrolls.
// A canvas and not elements: 100,000 knots are 100,000 numbers, and only those in sight are painted.

import { Chart } from "./chart.js";
import { isThreaded, Tied } from "./tied.js";

const MARGIN = 12;

export class Picture {
  scale = 0;
  fits = true;
  waiting = false;
  wantsChart = false;
  /** Whether the band lies on its side; as long as nobody chose, it does where it is then larger. */
  lies = false;
  choseSide = false;

  /** `state` is asked at every painting: band, colors, staleFrom, lit, tied, done, end. */
  constructor(scroll, room, canvas, state) {
    Object.assign(this, { scroll, room, canvas, state });
    this.paper = canvas.getContext("2d");
    this.tied = new Tied(state, () => this.ask());
    this.chart = new Chart(state);
    scroll.addEventListener("scroll", () => this.ask());
    new ResizeObserver(() => this.size()).observe(scroll);
    new MutationObserver(() => this.ask()).observe(document.documentElement, { attributeFilter: ["class"] });
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

  /** What is shown: the chart as soon as it is there. */
  view() {
    return this.wantsChart && this.state().band.chart ? this.chart : this.tied;
  }

  /** Shows the chart, or the band as it will look. */
  turn(wantsChart) {
    this.wantsChart = wantsChart;
    this.fits = true;
    this.scroll.scrollTo(0, 0);
    this.size();
  }

  /** Lays the band on its side, or hangs it up. */
  lay(lies) {
    Object.assign(this, { lies, choseSide: true, fits: true });
    this.scroll.scrollTo(0, 0);
    this.size();
  }

  /** The window as the band sees it: across the strands, and along them. */
  window() {
    const { clientWidth, clientHeight } = this.scroll;
    return this.isOnSide() ? [clientHeight, clientWidth] : [clientWidth, clientHeight];
  }

  /** A chart is read, so it stays upright. */
  isOnSide() {
    return this.lies && this.view() === this.tied;
  }

  /** The scale at which all of it is in sight, or all of its width if that would be too small to see. */
  fitting() {
    const [wide, high] = this.view().extent();
    const [across, along] = this.window();
    return Math.min((across - MARGIN * 2) / wide, Math.max((along - MARGIN * 2) / high, 0.9), this.view().largest);
  }

  /** On its side where that makes it larger. */
  settleSide() {
    if (this.choseSide || !this.fits) return;
    const [upright, onSide] = [false, true].map((lies) => {
      this.lies = lies;
      return this.inSight();
    });
    this.lies = onSide > upright * 1.2;
  }

  /** How much of the window the band fills when it fits. */
  inSight() {
    const [wide, high] = this.view().extent();
    const scale = this.fitting();
    return wide * scale * Math.min(high * scale, this.window()[1]);
  }

  /** Makes room for the whole band in the size that is wanted. */
  size() {
    const { band } = this.state();
    if (!band.frame) return;
    this.settleSide();
    const [wide, high] = this.view().extent();
    if (this.fits) this.scale = this.fitting();
    const sides = this.window();
    const room = [wide, high].map((length, side) => Math.max(sides[side], length * this.scale + MARGIN * 2));
    const isOnSide = this.isOnSide();
    if (isOnSide) room.reverse();
    const window = this.canvas.parentElement.style;
    [window.width, window.height] = [`${this.scroll.clientWidth}px`, `${this.scroll.clientHeight}px`];
    ["width", "height"].forEach((side, at) => {
      this.room.style[side] = `${room[at]}px`;
      this.canvas.style[side] = `${sides[at]}px`;
      const pixels = Math.round(sides[at] * devicePixelRatio);
      if (this.canvas[side] !== pixels) this.canvas[side] = pixels;
    });
    this.canvas.classList.toggle("lies", isOnSide);
    document.getElementById("lie").setAttribute("aria-pressed", this.lies);
    this.ask();
  }

  /** Larger or smaller, around the middle of what is in sight. */
  zoom(by) {
    const { scroll } = this;
    const [start, length, window] = this.isOnSide() ? ["scrollLeft", "scrollWidth", "clientWidth"] : ["scrollTop", "scrollHeight", "clientHeight"];
    const middle = (scroll[start] + scroll[window] / 2) / scroll[length];
    this.fits = by === 0;
    this.scale = Math.min(12, Math.max(0.08, this.scale * (by || 1)));
    this.size();
    scroll[start] = middle * scroll[length] - scroll[window] / 2;
  }

  /** How far the window is scrolled across the strands and along them. On its side the first strand is at the bottom. */
  scrolled() {
    const { scrollLeft, scrollTop, scrollHeight, clientHeight } = this.scroll;
    return this.isOnSide() ? [scrollHeight - clientHeight - scrollTop, scrollLeft] : [scrollLeft, scrollTop];
  }

  /** Where the upper left corner of the picture lies in the window of the canvas. */
  origin() {
    const [wide] = this.view().extent();
    const room = Math.max(this.window()[0], wide * this.scale + MARGIN * 2);
    const [across, along] = this.scrolled();
    return [(room - wide * this.scale) / 2 - across, MARGIN - along];
  }

  /** The knot under a pointer. */
  knotAt(event) {
    const box = this.scroll.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left - this.scroll.clientLeft, event.clientY - box.top - this.scroll.clientTop];
    const [across, along] = this.isOnSide() ? [this.scroll.clientHeight - y, x] : [x, y];
    const [left, top] = this.origin();
    return this.view().at((across - left) / this.scale, (along - top) / this.scale);
  }

  /** Scrolls to a knot if it is not in sight. */
  reveal(knot) {
    const place = knot && this.view().place(knot);
    if (!place) return;
    const along = MARGIN + place[1] * this.scale;
    const [start, window] = [this.scrolled()[1], this.window()[1]];
    if (along < start + 20 || along > start + window - 20) this.scroll[this.isOnSide() ? "scrollLeft" : "scrollTop"] = along - window / 2;
  }

  /** How many beads are threaded in what is painted. */
  beads() {
    const { band, tied, done } = this.state();
    return band.beads.filter((bead) => isThreaded(bead, tied, done)).length;
  }

  paint() {
    const { band } = this.state();
    const { paper, canvas } = this;
    paper.setTransform(1, 0, 0, 1, 0, 0);
    paper.clearRect(0, 0, canvas.width, canvas.height);
    if (!band.frame || !this.scale) return;
    const view = this.view();
    const [left, top] = this.origin().map((side) => side * devicePixelRatio);
    view.paint(paper, { left, top, full: this.scale * devicePixelRatio });
    paper.setTransform(1, 0, 0, 1, 0, 0);
    const { lit, staleFrom, tied } = this.state();
    Object.assign(canvas.dataset, { tied, beads: this.beads(), side: this.isOnSide(), view: view === this.chart ? "chart" : "tied", knots: band.knots.length, lit: lit.size, stale: staleFrom });
    performance.mark("painted");
  }
}
