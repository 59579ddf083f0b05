// The gallery in a real browser, from the disk: what someone sees who looks for a band.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { axe, cleanUp, exported, galleryOf, launch, measured, open, pattern, patterns, written } from "./stage.js";

let browser, samples;
before(async () => {
  browser = await launch();
  samples = galleryOf([patterns], "--title", "Bands of the harbor");
});
after(async () => {
  await browser.close();
  cleanUp();
});

const context = (options = {}) => browser.newContext({ viewport: { width: 1200, height: 900 }, ...options });

/** The titles of the bands that are in sight, from the first to the last. */
const titles = (page) =>
  page.locator("#bands > li:not([hidden]) h2").evaluateAll((all) => all.map((title) => title.textContent));

const count = (page) => page.locator("#count").textContent();

test("all bands hang there from a disk, with pictures, and ask nothing of a network", async () => {
  const page = await open(await context(), samples);
  assert.equal(await page.title(), "Bands of the harbor");
  const all = await titles(page);
  assert.deepEqual(all, [...all].sort((one, other) => (one.toLowerCase() < other.toLowerCase() ? -1 : 1)));
  assert.equal(await count(page), `${all.length} bands`);
  for (const image of await page.locator("#bands img").all()) {
    await image.scrollIntoViewIfNeeded();
    await page.waitForFunction((image) => image.complete && image.naturalWidth > 0, await image.elementHandle());
  }
  assert.ok(page.asked.every((address) => address.startsWith("file:")), `${page.asked}`);
  assert.deepEqual(page.said, []);
});

test("a card says what the program says of the band, and pictures have one scale", async () => {
  const page = await open(await context(), samples);
  const widths = [];
  for (const name of ["breakwater", "lamp-moth", "harbor-quilt"]) {
    const [band, lengths] = [exported(pattern(name)), measured(pattern(name))];
    const card = page.locator("#bands > li", { has: page.getByRole("heading", { name: band.title, exact: true }) });
    const chips = await card.locator(".strands > :not(.heard)").allTextContents();
    assert.equal(chips.length, band.strands.length, name);
    // Not the text as it is drawn: a card that was never in sight is not.
    assert.match(await card.locator(".size").textContent(), new RegExp(`^${band.strands.length} strands`));
    await card.locator("summary").click();
    const pieces = (await card.locator(".cut").textContent()).matchAll(/(\d+)\s\u00d7/g);
    const cut = [...pieces].reduce((sum, [, number]) => sum + Number(number), 0);
    assert.equal(cut, lengths.pieces.length, `${name}: as many threads are cut`);
    const shown = await card.locator("img").evaluate((image) => image.getBoundingClientRect().width);
    widths.push(shown / (lengths.width_mm + 3));
  }
  const [least, most] = [Math.min(...widths), Math.max(...widths)];
  assert.ok(most / least < 1.15, `pixels to a millimeter: ${widths}`);
});

test("in order of size slim bands come first, by keyboard too", async () => {
  const page = await open(await context(), samples);
  const byName = await titles(page);
  await page.locator('input[value="name"]').focus();
  await page.keyboard.press("ArrowRight");
  const strands = await page
    .locator("#bands > li")
    .evaluateAll((all) => all.map((item) => item.querySelectorAll(".strands > :not(.heard)").length));
  assert.deepEqual(strands, [...strands].sort((one, other) => one - other));
  assert.equal(strands[0], exported(pattern("three-reeds")).strands.length);
  await page.keyboard.press("ArrowLeft");
  assert.deepEqual(await titles(page), byName);
});

test("the field finds all words anywhere, without accents and capitals", async () => {
  const sea = written("sea", `pattern "\u00c9t\u00e9 am Fluss"\nauthor "Tidewatch"\nabout "For the harbor feast."\n` +
    `thread kelp #1f5d50 "Seetang"\nthread sand #e3c888\nstrands 2 kelp 2 sand\nsets 4\nset { take left 1: forward 3 }\n`);
  const page = await open(await context(), galleryOf([sea, patterns]));
  const field = page.locator("#words");
  for (const words of ["ETE fluss", "tidewatch", "feast harbor", "seetang", "4 strands ete", "sea.knot"]) {
    await field.fill(words);
    assert.ok((await titles(page)).includes("\u00c9t\u00e9 am Fluss"), words);
  }
  await field.fill("ete");
  assert.match(await count(page), /^1 of \d+ bands$/);
  await field.fill("no such band");
  assert.deepEqual(await titles(page), []);
  assert.ok(await page.getByText("No band has all of these words").isVisible());
  await field.fill("");
  assert.match(await count(page), /^\d+ bands$/);
});

test("by keys alone one gets to the words, the sheet and back", async () => {
  const page = await open(await context(), samples);
  await page.keyboard.press("Tab");
  await page.keyboard.type("lamp moth");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Tab");
  const focused = () => page.evaluate(() => document.activeElement.textContent);
  assert.equal(await focused(), "Lamp moth");
  await page.keyboard.press("Enter");
  await page.waitForURL(/words\/.*lamp-moth\.html$/);
  assert.equal(await page.locator("h1").textContent(), "Lamp moth");
  await page.waitForFunction(() => [...document.images].every((image) => image.complete && image.naturalWidth > 0));
  await page.getByRole("link", { name: /sheet/ }).focus();
  await page.keyboard.press("Enter");
  await page.waitForURL(/sheets\/.*lamp-moth\.html$/);
  assert.ok(await page.locator("#next").isVisible());
  await page.goBack();
  await page.getByRole("link", { name: "All bands" }).focus();
  await page.keyboard.press("Enter");
  await page.waitForURL(/index\.html$/);
  assert.deepEqual(page.said, []);
});

test("nothing of a pattern runs", async () => {
  const nasty = `</style></script><script>document.title='owned'</script><img src=x onerror=document.title='owned'>"'&<!--`;
  const quoted = nasty.replaceAll('"', '\\"');
  const path = written("nasty", `pattern "${quoted}"\nabout "${quoted}"\nauthor "${quoted}"\nlicense "${quoted}"\n` +
    `thread kelp #1f5d50 "${quoted}"\nthread sand #e3c888\nstrands 2 kelp 2 sand\nsets 2\nset { take left 1: forward 3 }\n`);
  const page = await open(await context(), galleryOf([path], "--title", nasty));
  assert.equal(await page.title(), nasty);
  assert.deepEqual(await titles(page), [nasty]);
  assert.equal(await page.locator("img").count(), 1);
  await page.locator("h2 a").click();
  await page.waitForURL(/words/);
  assert.equal(await page.locator("h1").textContent(), nasty);
  assert.deepEqual(page.said, []);
  await page.evaluate(() => {
    const script = document.createElement("script");
    script.textContent = "document.title = 'owned'";
    document.body.append(script);
  });
  assert.equal(await page.title(), nasty, "the policy holds");
});

test("without scripts all bands hang there by name", async () => {
  const page = await open(await context({ javaScriptEnabled: false }), samples);
  assert.ok(!(await page.locator("#seek").isVisible()));
  assert.ok(await page.locator("#bands h2").first().isVisible());
});

for (const [name, set] of Object.entries({
  light: { colorScheme: "light" },
  dark: { colorScheme: "dark" },
  phone: { viewport: { width: 360, height: 740 }, isMobile: true, hasTouch: true },
})) {
  test(`axe-core finds nothing: ${name}`, async () => {
    // The pages' policy lets nothing in from elsewhere, axe-core neither; for this test it is lifted.
    const page = await open(await context({ ...set, bypassCSP: true }), samples);
    const sound = async () => {
      await page.addScriptTag({ content: axe });
      const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
      const told = found.violations.map((of) => `${of.id}: ${of.nodes.map((node) => node.html.slice(0, 120)).join("; ")}`);
      assert.deepEqual(told, []);
      const sideways = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      assert.ok(sideways <= 0, `${sideways} pixels to scroll sideways`);
    };
    await page.locator("summary").first().click();
    await sound();
    await page.locator("h2 a").first().click();
    await page.waitForURL(/words/);
    await sound();
  });
}
