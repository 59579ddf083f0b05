// The picture of an order of strands: a chip for each, side by side.

import type { Order } from "./contract.ts";

const [WIDTH, HEIGHT, GAP, ROUND] = [9, 12, 2, 2.5];
/** More than this are no help at the end of a line. */
const MOST = 64;

/** An image of the chips, as an address. With letters, each has the one that stands for its thread. */
export function chips(strands: Order["strands"], letters: boolean): string {
  const shown = strands.slice(0, MOST);
  const chip = ({ letter, color }: Order["strands"][number], at: number) => {
    const x = 0.5 + at * (WIDTH + GAP);
    // A gray edge, so that no chip is lost on a page of its own color.
    const box = `<rect x="${x}" y="0.5" width="${WIDTH}" height="${HEIGHT}" rx="${ROUND}" fill="${color}" stroke="#808080" stroke-width="0.75"/>`;
    const ink = isPale(color) ? "#000" : "#fff";
    const text = `<text x="${x + WIDTH / 2}" y="${HEIGHT - 2.25}" fill="${ink}" font-family="sans-serif" font-size="9" text-anchor="middle">${escaped(letter)}</text>`;
    return letters ? box + text : box;
  };
  const size = `width="${shown.length * (WIDTH + GAP) + 1}" height="${HEIGHT + 1}"`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" ${size}>${shown.map(chip).join("")}</svg>`;
  return `data:image/svg+xml;utf8,${encodeURIComponent(svg)}`;
}

/** Whether black is easier to read on a color than white: by its relative luminance (WCAG 2.2), where both contrast alike. */
function isPale(color: string): boolean {
  const linear = (at: number) => {
    const part = parseInt(color.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  };
  const luminance = 0.2126 * linear(1) + 0.7152 * linear(3) + 0.0722 * linear(5);
  return luminance > Math.sqrt(1.05 * 0.05) - 0.05;
}

const escaped = (text: string): string => text.replace(/[<>&"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
