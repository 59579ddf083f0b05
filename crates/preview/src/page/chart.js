// How knots look in a chart: an arrow the way of the strand that is seen, in its color.

// By form, the arrow's corners within the knot's cell.
const ARROWS = [
  [[-0.55, -0.3], [0.55, 0.3]],
  [[0.55, -0.3], [-0.55, 0.3]],
  [[-0.5, -0.34], [0.42, 0], [-0.5, 0.34]],
  [[0.5, -0.34], [-0.42, 0], [0.5, 0.34]],
  [[-0.6, 0], [0.6, 0]],
  [[0, -0.42], [0, 0.42]],
];

/** A knot with its middle there: a disc of the thread's color, and the arrow on it. */
export const sign = (paper, form, thread, [x, y], cell, scale) => {
  const [wide, high] = cell.map((side) => side * scale);
  paper.beginPath();
  paper.ellipse(x, y, wide * 0.86, high * 0.46, 0, 0, 7);
  paper.fillStyle = thread.shown;
  paper.fill();
  paper.lineWidth = Math.max(1, scale * 0.7);
  paper.strokeStyle = thread.rim;
  paper.stroke();
  const line = ARROWS[form].map(([across, down]) => [x + across * wide, y + down * high]);
  const [end, before] = [line.at(-1), line.at(-2)];
  const way = Math.atan2(end[1] - before[1], end[0] - before[0]);
  const tip = (turn) => [end[0] - Math.cos(way + turn) * wide * 0.35, end[1] - Math.sin(way + turn) * wide * 0.35];
  paper.beginPath();
  line.forEach((point, at) => (at ? paper.lineTo(...point) : paper.moveTo(...point)));
  paper.moveTo(...tip(0.6));
  paper.lineTo(...end);
  paper.lineTo(...tip(-0.6));
  paper.strokeStyle = thread.ink;
  paper.lineWidth = Math.max(1, scale * 1.3);
  paper.lineCap = "round";
  paper.stroke();
};
