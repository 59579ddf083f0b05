// How knots and strands look as they are tied.

/** A thread by its number; gray if there is none. */
export const threadOf = (colors, number) => colors[number] ?? { name: "unknown", shown: "#888888", rim: "#444444", ink: "#000000", letter: "?" };

/** Paints knots from their stencils. A knot is painted once for every color and size, and then only copied. */
export class Ink {
  images = new Map();
  stamps = new Map();

  constructor(ready) {
    this.ready = ready;
  }

  /** The stencils of another band. */
  use(frame) {
    if (this.frame === frame) return;
    this.frame = frame;
    this.images.clear();
    this.stamps.clear();
  }

  image(form, { shown, rim }) {
    const key = form + shown;
    let image = this.images.get(key);
    if (!image) {
      image = new Image();
      const svg = this.frame.stencils[form].replace("{color}", shown).replace("{rim}", rim);
      const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
      image.addEventListener("load", () => {
        URL.revokeObjectURL(address);
        image.isReady = true;
        this.ready();
      });
      image.src = address;
      this.images.set(key, image);
    }
    return image;
  }

  stamp(form, thread, scale) {
    const key = `${form}${thread.shown}${scale}`;
    let stamp = this.stamps.get(key);
    if (stamp) return stamp;
    const image = this.image(form, thread);
    if (!image.isReady) return null;
    if (this.stamps.size > 400) this.stamps.clear();
    stamp = document.createElement("canvas");
    stamp.width = Math.max(1, Math.ceil(this.frame.half[0] * 2 * scale));
    stamp.height = Math.max(1, Math.ceil(this.frame.half[1] * 2 * scale));
    stamp.getContext("2d").drawImage(image, 0, 0, stamp.width, stamp.height);
    this.stamps.set(key, stamp);
    return stamp;
  }

  /** A knot with its middle there, in the canvas' own pixels. */
  knot(paper, form, thread, [x, y], scale) {
    const stamp = this.stamp(form, thread, scale);
    // Until its image is there, for a moment, only its strands are seen.
    if (stamp) paper.drawImage(stamp, x - stamp.width / 2, y - stamp.height / 2);
  }
}

/** A strand along a line: rim, thread and gloss. `paint` gives what a color is painted with. */
export const strand = (paper, line, thread, thickness, paint = (color) => color) => {
  const strokes = [[thread.rim, 0.98, 0], [thread.shown, 0.84, 0], ["#ffffff", 0.2, -0.14]];
  paper.lineJoin = "round";
  for (const [color, width, aside] of strokes) {
    paper.save();
    if (aside) paper.globalAlpha *= 0.28;
    paper.translate(aside * thickness, 0);
    paper.strokeStyle = paint(color);
    paper.lineWidth = thickness * width;
    paper.stroke(line);
    paper.restore();
  }
};

/** Outlines what is lit in dark and in it in light: one of the two stands out from a thread of any color. */
export const ring = (paper, width, line) => {
  for (const [color, wide] of [["#140c1c", width], ["#ffffff", width * 0.45]]) {
    paper.strokeStyle = color;
    paper.lineWidth = wide;
    line();
  }
};
