// The live picture in a real browser, with a real editor on the other side.

import assert from "node:assert/strict";
import { readFileSync, renameSync, writeFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { alone, editor, until } from "./live.js";
import { axe, cleanUp, launch, measured, open, pattern, written } from "./stage.js";

let browser;
const owners = [];
before(async () => {
  browser = await launch();
});
after(async () => {
  owners.forEach((owner) => owner.stop());
  await browser.close();
  cleanUp();
});

const own = async (owner) => {
  owners.push(await owner);
  return owners.at(-1);
};
const context = (options = {}) => browser.newContext({ viewport: { width: 1200, height: 850 }, ...options });
const text = (page, name) => page.locator(`#${name}`).textContent();
/** What was painted last: how many knots there are, how many steps are lit, from which knot on it is pale. */
const painted = (page) => page.locator("#canvas").evaluate((canvas) => ({ ...canvas.dataset }));
const knots = (page, count) => until(async () => (await painted(page)).knots === String(count));

const REEDS = `pattern "Reeds"
thread reed #4a7c59
thread mud #6b4f3a
strands reed 3 mud
sets 2
set {
  take left 1: forward 3
  take right 1: backward 2
}
`;

test("alone: the picture follows the file, also when it is saved by giving another file its name", async () => {
  const path = written("saved", REEDS);
  const page = await open(await context(), (await own(alone(path))).address);
  await knots(page, 10);
  assert.equal(await text(page, "title"), "Reeds");
  writeFileSync(`${path}.new`, REEDS.replace("backward 2", "backward 1").replace("Reeds", "Fewer reeds"));
  renameSync(`${path}.new`, path);
  await knots(page, 8);
  assert.equal(await text(page, "title"), "Fewer reeds");
  writeFileSync(path, REEDS);
  await knots(page, 10);
  await page.locator("#next").click();
  await page.locator("#lead").click();
  await until(async () => /saved\.knot:7:3$/.test(await text(page, "said")));
  await page.locator("#thread-0").fill("#112233");
  await page.getByRole("button", { name: "Write into the file" }).click();
  await until(async () => /line 2 .*#112233 instead of #4a7c59/.test(await text(page, "said")));
  assert.equal(readFileSync(path, "utf8"), REEDS, "nothing was written");
  assert.deepEqual(page.said, []);
});

const QUAY = `pattern "Quay"
thread reed #4a7c59
thread mud #6b4f3a
thread sky #7fb2d9
bead pearl #eeeeee 4 mm hole 2 mm
strands reed 3 mud
sets 2
set {
  take left 1: forward 3
  bead pearl on left 2
  join left 1 with sky
  take left 1: forward 2
}
`;

test("beads and joins are steps of their own, and the strands hang in the colors of the new pieces", async () => {
  const page = await open(await context(), (await own(alone(written("quay", QUAY)))).address);
  await knots(page, 10);
  await until(async () => (await painted(page)).beads === "2");
  const hang = () => page.locator("#hang .heard").evaluateAll((all) => all.map((one) => one.textContent.trim()));
  const next = async (where, says, beads) => {
    await page.locator("#next").click();
    assert.match(await text(page, "where"), new RegExp(`^${where}: .*${says}`));
    await until(async () => (await painted(page)).beads === beads);
  };
  await next("Set 1 of 2 · step 1 of 4", "3 forward knots of reed", "0");
  await next("Set 1 of 2 · step 2 of 4", "Thread a bead \\(pearl\\) onto the second strand from the left", "1");
  assert.deepEqual(await hang(), ["mud", "mud, taken in this step", "mud", "reed"]);
  await next("Set 1 of 2 · step 3 of 4", "Join the first strand from the left \\(mud\\): lay a new piece of sky", "1");
  assert.deepEqual(await hang(), ["sky, taken in this step", "mud", "mud", "reed"]);
  await page.locator("#lead").click();
  await until(async () => /quay\.knot:11:3$/.test(await text(page, "said")));
  await next("Set 1 of 2 · step 4 of 4", "2 forward knots of sky", "1");
  await next("Set 2 of 2 · step 1 of 4", "3 forward knots of mud", "1");
  assert.deepEqual(await hang(), ["mud, moved in this step", "sky, moved in this step", "reed, moved in this step", "mud, moved in this step"]);
  await next("Set 2 of 2 · step 2 of 4", "Thread a bead", "2");
  assert.deepEqual(page.said, []);
});

test("an editor: what is typed is shown before it is saved, and mistakes in their place", async () => {
  const vim = await own(editor(written("typed", REEDS)));
  const page = await open(await context(), vim.address);
  await knots(page, 10);
  vim.line(7, "  take left 1: forward 2");
  await knots(page, 8);
  vim.line(8, "  take right 9: backward 2");
  await until(async () => (await text(page, "state")).startsWith("One mistake."));
  // The last band that tied stays, and is pale from the second step on.
  await until(async () => (await painted(page)).stale === "2");
  assert.equal((await painted(page)).knots, "8");
  await page.getByRole("button", { name: "Line 8" }).click();
  await until(() => vim.cursor() === 8);
  vim.line(8, "  take right 1: backward 3");
  await until(async () => (await text(page, "state")) === "It ties.");
  await knots(page, 10);
  await until(async () => (await painted(page)).stale === "Infinity");
});

test("an editor: a click leads the cursor, and the cursor lights its step", async () => {
  const vim = await own(editor(written("led", REEDS)));
  const page = await open(await context(), vim.address);
  await knots(page, 10);
  vim.lua("vim.api.nvim_win_set_cursor(0, {8, 5})");
  vim.lua("vim.api.nvim_exec_autocmds('CursorMoved', {buffer = 0})");
  await until(async () => (await painted(page)).lit === "2");
  await clickUntil(page, 25, () => vim.cursor() === 7);
});

/** How many pixels of the canvas have exactly that color. */
const pixels = (page, wanted) => page.locator("#canvas").evaluate((canvas, [red, green, blue]) => {
  const { data } = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height);
  let count = 0;
  for (let at = 0; at < data.length; at += 4) count += data[at] === red && data[at + 1] === green && data[at + 2] === blue && data[at + 3] === 255;
  return count;
}, wanted);
/** The same, once two pictures in a row are alike. */
const settledPixels = (page, wanted) => until(async () => {
  const first = await pixels(page, wanted);
  await page.evaluate(() => new Promise((next) => requestAnimationFrame(() => requestAnimationFrame(next))));
  return (await pixels(page, wanted)) === first && first;
});
/**
 * Clicks down the canvas, over and over, until something holds. The first knot of four strands hangs left of the middle,
 * between the first strand and the second.
 */
const clickUntil = async (page, left, holds) => {
  const box = await page.locator("#canvas").boundingBox();
  let down = 20;
  await until(async () => {
    await page.mouse.click(box.x + box.width / 2 - left, box.y + down);
    down = down + 12 < box.height ? down + 12 : 20;
    return holds();
  });
};
const REED = [0x4a, 0x7c, 0x59];
/** The dark part of the ring around a knot that is lit. */
const LIT = [0x14, 0x0c, 0x1c];

test("an editor: the working chart follows the cursor, clicks and mistakes as the picture does", async () => {
  const vim = await own(editor(written("charted", REEDS)));
  const page = await open(await context({ colorScheme: "light" }), vim.address);
  await knots(page, 10);
  await page.selectOption("#view", "chart");
  await until(async () => (await painted(page)).view === "chart");
  const bright = await pixels(page, REED);
  assert.ok(bright > 1000, `${bright} pixels of ribbons`);
  assert.equal(await pixels(page, LIT), 0);
  vim.lua("vim.api.nvim_win_set_cursor(0, {8, 5})");
  vim.lua("vim.api.nvim_exec_autocmds('CursorMoved', {buffer = 0})");
  await until(async () => (await painted(page)).lit === "2");
  await until(async () => (await pixels(page, LIT)) > 100);
  await clickUntil(page, 33, () => vim.cursor() === 7);
  const clear = await settledPixels(page, REED);
  vim.line(7, "  take left 9: forward 3");
  await until(async () => (await painted(page)).stale === "0");
  await until(async () => (await pixels(page, REED)) < clear * 0.7);
  assert.equal((await painted(page)).view, "chart");
  vim.line(7, "  take left 1: forward 3");
  await until(async () => (await painted(page)).stale === "Infinity");
  await until(async () => (await pixels(page, REED)) > clear * 0.9);
});

test("the working chart ties step by step, in whichever set the step is", async () => {
  const page = await open(await context({ colorScheme: "light" }), (await own(alone(written("stepped", REEDS)))).address);
  await knots(page, 10);
  await page.selectOption("#view", "chart");
  await until(async () => (await painted(page)).view === "chart");
  const whole = await pixels(page, REED);
  const after = [];
  for (let step = 0; step < 4; step += 1) {
    await page.locator("#next").click();
    await until(async () => (await pixels(page, LIT)) > 100);
    after.push(await settledPixels(page, REED));
  }
  assert.ok(after[0] < whole * 0.9, `knots to come are pale: ${after[0]} of ${whole}`);
  assert.match(await text(page, "where"), /^Set 2 of 2/);
  await page.selectOption("#view", "tied");
  await until(async () => (await painted(page)).view === "tied");
});

test("an editor: a tried color is written on a click, and only then", async () => {
  const vim = await own(editor(written("tried", REEDS)));
  const page = await open(await context(), vim.address);
  await knots(page, 10);
  await page.locator("#thread-1").fill("#aa3300");
  const write = page.getByRole("button", { name: "Write into the file" });
  await write.waitFor();
  assert.equal(vim.text().trimEnd(), REEDS.trimEnd());
  await write.click();
  await until(() => vim.text().includes("thread mud #aa3300"));
  await until(async () => (await text(page, "said")) === "The color is now in the file.");
});

test("an editor: 200 keystrokes a second for ten seconds, and the last state wins", async () => {
  const vim = await own(editor(written("hammered", REEDS)));
  const page = await open(await context(), vim.address);
  await knots(page, 10);
  vim.lua("Hammer(6, 23, 24, 2000, '1')");
  await until(() => vim.lua("Hammered") === "true");
  await knots(page, 6);
  await until(async () => (await text(page, "state")) === "It ties.");
  vim.line(7, "  take left 1: forward 3");
  await knots(page, 10);
});

test("keys alone tie the band step by step, and each step is told", async () => {
  const page = await open(await context({ reducedMotion: "reduce" }), (await own(alone(pattern("orchard-hearts")))).address);
  await until(async () => Number((await painted(page)).knots) > 0);
  const slider = page.getByRole("slider", { name: "Step of the band" });
  await slider.focus();
  await page.keyboard.press("Home");
  assert.equal(await text(page, "where"), "Nothing is tied yet");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  assert.match(await slider.getAttribute("aria-valuetext"), /^Set 1 of 6 · step 2 of \d+: \d+ \S+ knots? of /);
  assert.equal(await page.locator("#hang li").count(), 12);
  assert.equal(await page.locator("#hang .hand").count(), 3, "two knots, three strands");
  await page.keyboard.press("End");
  assert.match(await text(page, "where"), /^Set 6 of 6/);
  // The right end is the whole band.
  await until(async () => (await painted(page)).tied === "Infinity");
  await page.getByRole("button", { name: "Whole band" }).click();
  assert.equal(await text(page, "where"), "The whole band");
});

test("sets, colorways and other eyes change the picture", async () => {
  const path = written("ways", REEDS.replace("strands", 'colorway "Night" {\n  thread reed #000033\n}\nstrands'));
  const page = await open(await context(), (await own(alone(path))).address);
  await knots(page, 10);
  const shot = () => page.locator("#scroll").screenshot().then((png) => png.toString("base64"));
  const settled = async () => {
    const first = await shot();
    return (await shot()) === first && first;
  };
  const seen = [await until(settled)];
  for (const [list, value] of [["colorway", "=Night"], ["vision", "deutan"], ["view", "chart"]]) {
    await page.selectOption(`#${list}`, value);
    seen.push(await until(async () => {
      const now = await settled();
      return !seen.includes(now) && now;
    }));
  }
  await page.locator("#sets").fill("5");
  await page.locator("#sets").blur();
  await knots(page, 25);
});

test("what to cut of each thread is what `measure` says, for as many sets as are shown", async () => {
  const path = written("cut", REEDS);
  const page = await open(await context(), (await own(alone(path))).address);
  const row = (number) => page.locator("#thread-rows tr").nth(number).textContent();
  const wanted = (sets) => {
    const { pieces, colors } = measured(path, "--sets", String(sets));
    return colors.map(({ color, pieces: count, length_mm }) => {
      const cuts = pieces.filter((piece) => piece.color === color).map((piece) => Math.ceil(piece.length_mm / 10));
      const [least, most] = [Math.min(...cuts), Math.max(...cuts)];
      const each = least === most ? `${most} cm` : `${least} to ${most} cm`;
      return `${count} of ${each}${(Math.ceil(length_mm / 100) / 10).toFixed(1)} m in all`;
    });
  };
  const tells = async (sets) => {
    const [reed, mud] = wanted(sets);
    await until(async () => (await row(0)).includes(reed) && (await row(1)).includes(mud));
    await until(async () => (await text(page, "lengths")).startsWith(`${sets} sets, `));
  };
  await tells(2);
  assert.doesNotMatch(await text(page, "lengths"), /--/, "a page knows no options");
  await page.locator("#sets").fill("9");
  await page.locator("#sets").blur();
  await tells(9);
  writeFileSync(path, REEDS.replace("sets 2", "length 1 mm"));
  await page.locator("#sets").fill("");
  await page.locator("#sets").blur();
  await until(async () => /is shorter than the band with one set/.test(await text(page, "lengths")));
});

test("picture, tiles, table and text are of one band, in the words of people", async () => {
  const openEnded = REEDS.replace("sets 2\n", "").replace("#4a7c59", '#4a7c59 "sweet flag"');
  const page = await open(await context(), (await own(alone(written("one", openEnded)))).address);
  await until(async () => /^[0-9]+ sets, /.test(await text(page, "lengths")));
  const sets = await page.locator("#sets").inputValue();
  assert.ok((await text(page, "lengths")).startsWith(`${sets} sets, `));
  const counts = await page.locator("#thread-rows .seen").allTextContents();
  assert.equal(counts.reduce((sum, count) => sum + Number(count), 0), 5 * Number(sets));
  const seen = (rows) => page.locator(rows).evaluateAll((all) => all.map((one) => one.textContent.trim()));
  assert.deepEqual(await seen("#hang li > :not(.heard)"), ["1", "S", "2", "M", "3", "M", "4", "M"]);
  assert.deepEqual(await seen("#thread-rows th"), ["Ssweet flag", "Mmud"]);
  assert.ok((await page.locator("#lengths code").allTextContents()).includes("length 18 cm"));
  assert.doesNotMatch(await page.locator("body").innerText(), /`/);
});

test("nothing of a pattern runs, and nothing is asked of anybody else", async () => {
  const nasty = `</title><img src=x onerror=document.title='owned'><script>document.title='owned'</script>`;
  const path = written("nasty-live", REEDS.replace("Reeds", nasty).replace("#4a7c59", `#4a7c59 "${nasty}"`));
  const { address } = await own(alone(path));
  const page = await open(await context(), address);
  await knots(page, 10);
  await page.locator("#next").click();
  assert.equal(await page.title(), nasty);
  assert.equal(await page.locator("img, #side script").count(), 0);
  assert.ok((await text(page, "where")).includes("<script>"));
  assert.deepEqual(page.asked.filter((asked) => !asked.startsWith(address) && !/^(blob|data):/.test(asked)), []);
  assert.deepEqual(page.said, []);
});

test("when its owner is gone the page says so and how to go on, and does when it is back at the same address", async () => {
  const path = written("gone", REEDS);
  const owner = await own(alone(path));
  const page = await open(await context(), owner.address);
  await knots(page, 10);
  // As in a terminal, where the next command comes after the end of this one: only then is its port free.
  await owner.stop();
  await until(async () => (await text(page, "state")).startsWith("Knotwright has stopped."));
  assert.match(await text(page, "state"), /run this in the same terminal: knotwright preview .*gone\.knot/);
  assert.equal((await painted(page)).knots, "10");
  writeFileSync(path, REEDS.replace("backward 2", "backward 1"));
  const again = await own(alone(path));
  assert.equal(again.address, owner.address);
  await until(async () => (await text(page, "state")) === "It ties.");
  await knots(page, 8);
});

test("a click on a knot lights its step and says it, and the rest of the band stays", async () => {
  const page = await open(await context(), (await own(alone(written("clicked", REEDS)))).address);
  await knots(page, 10);
  await clickUntil(page, 25, async () => (await text(page, "where")) !== "The whole band");
  assert.match(await text(page, "where"), /^Set \d of 2 · step \d of 2: /);
  await until(async () => (await painted(page)).lit === "1");
  assert.equal((await painted(page)).tied, "Infinity");
});

test("patterns in Markdown are shown from the command line, the one of that number", async () => {
  const path = written("notes", REEDS).replace(/\.knot$/, ".md");
  writeFileSync(path, `# Notes\n\n\`\`\`knot\n${REEDS}\`\`\`\n\n\`\`\`knot\n${REEDS.replace("Reeds", "Others")}\`\`\`\n`);
  for (const [number, title] of [["1", "Reeds"], ["2", "Others"]]) {
    const page = await open(await context(), (await own(alone(path, "--number", number))).address);
    await knots(page, 10);
    assert.equal(await text(page, "title"), title);
  }
});

test("whoever frames the page says whether it is light or dark, whatever the system says", async () => {
  const { address } = await own(alone(written("themed", REEDS)));
  const ground = async (theme, colorScheme) => {
    const page = await open(await context({ colorScheme }), `${address}${theme}`);
    await knots(page, 10);
    return page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  };
  const [light, dark] = [await ground("", "light"), await ground("", "dark")];
  assert.notEqual(light, dark);
  assert.equal(await ground("?theme=dark", "light"), dark);
  assert.equal(await ground("?theme=light", "dark"), light);
});

test("a long band lies on its side in a wide window, and a click there finds the knot that is under it", async () => {
  const browsing = await context({ viewport: { width: 1500, height: 500 } });
  const page = await open(browsing, (await own(alone(pattern("sailcloth")))).address);
  await until(async () => (await painted(page)).side === "true");
  const box = await page.locator("#scroll").boundingBox();
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  await until(async () => (await text(page, "where")) !== "The whole band");
  assert.match(await text(page, "where"), /^Set [345678] of 8/, "in the middle of the band");
  await page.getByRole("button", { name: "On its side" }).click();
  await until(async () => (await painted(page)).side === "false");
});

for (const [name, set] of Object.entries({
  light: { colorScheme: "light" },
  dark: { colorScheme: "dark" },
  phone: { viewport: { width: 360, height: 740 }, isMobile: true, hasTouch: true },
})) {
  test(`axe-core finds nothing: ${name}`, async () => {
    const page = await open(await context({ ...set, bypassCSP: true }), (await own(alone(written(`axe-${name}`, REEDS.replace("right 1", "right 9"))))).address);
    await until(async () => (await text(page, "state")).startsWith("One mistake"));
    writeFileSync(pathOf(name), REEDS);
    await knots(page, 10);
    await page.locator("#next").click();
    await page.locator("#thread-1").fill("#aa3300");
    await page.addScriptTag({ content: axe });
    const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
    assert.deepEqual(found.violations.map((of) => `${of.id}: ${of.nodes.map((node) => node.html.slice(0, 120)).join("; ")}`), []);
    const sideways = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    assert.ok(sideways <= 0, `${sideways} pixels to scroll sideways`);
  });
}

const pathOf = (name) => written(`axe-${name}`, REEDS);
