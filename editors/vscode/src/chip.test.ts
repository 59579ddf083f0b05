import assert from "node:assert/strict";
import { test } from "node:test";
import { chips } from "./chip.ts";

const strands = [
  { thread: "kelp", color: "#1f5d50", letter: "K" },
  { thread: "foam", color: "#f4f1e8", letter: "F" },
];
const drawn = (letters: boolean) => decodeURIComponent(chips(strands, letters).split(",").slice(1).join(","));

test("a chip for each strand in its color, from the left", () => {
  const colors = [...drawn(false).matchAll(/<rect[^>]* fill="(#[0-9a-f]+)"/g)].map(([, color]) => color);
  assert.deepEqual(colors, ["#1f5d50", "#f4f1e8"]);
  assert.ok(!drawn(false).includes("<text"));
});

test("letters are black on pale chips and white on dark ones", () => {
  const letters = [...drawn(true).matchAll(/<text[^>]* fill="(#[0-9a-f]+)"[^>]*>([^<]*)</g)].map(([, ink, letter]) => `${ink}${letter}`);
  assert.deepEqual(letters, ["#fffK", "#000F"]);
});

test("a letter is never markup", () => {
  const image = decodeURIComponent(chips([{ thread: "b", color: "#808080", letter: "<b" }], true));
  assert.ok(image.includes("&#60;") && !image.includes("<b"));
});
