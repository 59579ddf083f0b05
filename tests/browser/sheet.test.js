// The sheet in a real browser: what someone at a table with threads sees, hears and presses.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { axe, cleanUp, exported, launch, open, pattern, sheetOf, written } from "./stage.js";

let browser;
before(async () => {
  browser = await launch();
});
after(async () => {
  await browser.close();
  cleanUp();
});

/** A browser as someone has set it up, for one test. */
const context = (options = {}) => browser.newContext({ viewport: { width: 1200, height: 900 }, ...options });

/** The names of the strands that hang there, as they are heard. */
const chips = (page, list) =>
  page.locator(`#${list} li`).evaluateAll((all) => all.map((chip) => chip.title));

const text = (page, name) => page.locator(`#${name}`).textContent();

test("goes through the band step by step, and the strands hang as the program says", async () => {
  const path = pattern("lamp-moth");
  const band = exported(path);
  const label = new Map(band.threads.map((thread) => [thread.name, thread.label ?? thread.name]));
  const page = await open(await context(), sheetOf(path));
  assert.deepEqual(await chips(page, "now"), band.strands.map((name) => label.get(name)));
  assert.match(await text(page, "where"), /^Set 1 of 6 · step 1 of 73 · fore wings$/);
  assert.match(await text(page, "text"), /^Take the second strand from the left \(night blue\): tie a backward knot/);
  assert.equal(await page.locator("#now .hand small").textContent(), "2");
  for (let step = 0; step < 73; step += 1) {
    const then = await chips(page, "then");
    await page.locator("#next").click();
    assert.deepEqual(await chips(page, "now"), then, `after step ${step + 1}`);
  }
  assert.match(await text(page, "where"), /^Set 2 of 6 · step 1 of 73/);
  const order = band.order.map((strand) => label.get(band.strands[strand - 1]));
  assert.deepEqual(await chips(page, "now"), order);
  assert.ok(await page.locator('[data-tick="set-0"]').isChecked(), "the first set is ticked off");
});

test("lights up in the picture what is tied now, and only that", async () => {
  const page = await open(await context(), sheetOf(pattern("lamp-moth")));
  assert.equal(await page.locator("use.now").count(), 1);
  assert.equal(await page.locator("use.done").count(), 0);
  await page.locator("#next").click();
  assert.equal(await page.locator("use.now").count(), 2, "the fourth strand over two");
  assert.equal(await page.locator("use.done").count(), 1);
  await page.locator("#jump").click();
  const knots = await page.locator('use[data-step^="0."]').count();
  assert.equal(await page.locator("use.done").count(), knots);
  const seen = await page.locator("use.now").first().evaluate((use) => {
    const [knot, frame] = [use, document.getElementById("scroll")].map((of) => of.getBoundingClientRect());
    return knot.top >= frame.top && knot.bottom <= frame.bottom;
  });
  assert.ok(seen, "the picture is scrolled to the knot");
});

test("keeps the place and the ticks, for this band only", async () => {
  const browsing = await context();
  const path = sheetOf(pattern("sailcloth"));
  const page = await open(browsing, path);
  await page.locator("#next").click();
  await page.locator("#next").click();
  await page.locator('[data-tick="cut-0"]').check();
  const where = await text(page, "where");
  assert.match(where, /step 3 of 6/);
  const again = await open(browsing, path);
  assert.equal(await text(again, "where"), where);
  assert.ok(await again.locator('[data-tick="cut-0"]').isChecked());
  const other = await open(browsing, sheetOf(pattern("sailcloth"), "--sets", "3"));
  assert.match(await text(other, "where"), /^Set 1 of 3 · step 1 of 6/);
  again.on("dialog", (dialog) => dialog.accept());
  await again.locator("#begin").click();
  assert.match(await text(again, "where"), /^Set 1 of 8 · step 1 of 6/);
  assert.ok(!(await again.locator('[data-tick="cut-0"]').isChecked()));
});

test("what was kept by something else is not believed", async () => {
  const browsing = await context();
  const path = sheetOf(pattern("sailcloth"));
  for (const kept of ["{", '{"part":-1,"step":"x"}', '{"part":99999999,"step":0}', '{"part":0,"step":99999,"ticks":7}', "null"]) {
    const page = await open(browsing, path);
    const key = await page.evaluate(() => `knotwright:${document.documentElement.dataset.band}`);
    await page.evaluate(([key, kept]) => localStorage.setItem(key, kept), [key, kept]);
    await page.reload();
    assert.match(await text(page, "where"), /^Set [12] of 8 · step 1 of 6/, kept);
    assert.deepEqual(page.said, []);
    await page.close();
  }
});

test("is worked by keys alone, to the end and back", async () => {
  const page = await open(await context(), sheetOf(pattern("three-reeds"), "--sets", "2"));
  assert.ok(await page.locator("#back").isDisabled());
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Enter");
  assert.match(await text(page, "where"), /step 3 of 6/);
  await page.keyboard.press("ArrowLeft");
  assert.match(await text(page, "where"), /step 2 of 6/);
  for (let step = 0; step < 20; step += 1) await page.keyboard.press("ArrowRight");
  assert.equal(await text(page, "text"), "All is tied. Now finish the ends.");
  assert.ok(await page.locator("#next").isDisabled());
  assert.equal(await page.locator("#progress").evaluate((bar) => bar.value), 1);
  await page.keyboard.press("ArrowLeft");
  assert.match(await text(page, "where"), /^Set 2 of 2 · step 6 of 6/);
  await page.locator("#next").focus();
  await page.keyboard.press("Enter");
  assert.equal(await text(page, "text"), "All is tied. Now finish the ends.");
});

test("an opening and a closing have their turn, and other colors in later sets", async () => {
  const path = written(
    "turns",
    `pattern "Turns"\nthread kelp #1f5d50\nthread sand #e3c888\nthread foam #fff\nstrands kelp sand foam\nsets 4\n` +
      `opening {\n  take left 1: forward 1\n}\nset {\n  note "Pull it tight."\n  take left 1: forward 2\n}\n` +
      `closing {\n  take right 1: backward 1\n}\n`,
  );
  const page = await open(await context(), sheetOf(path));
  const seen = [];
  for (let step = 0; step < 6; step += 1) {
    const color = /\((\w+)\)/.exec(await text(page, "text"))[1];
    seen.push(`${(await text(page, "where")).split(" · ")[0]}: ${color}`);
    await page.locator("#next").click();
  }
  // kelp goes over sand; then in turn sand, kelp, foam, sand go to the right edge; kelp foam sand hang there at last.
  assert.deepEqual(seen, [
    "Opening: kelp", "Set 1 of 4: sand", "Set 2 of 4: kelp", "Set 3 of 4: foam", "Set 4 of 4: sand", "Closing: sand",
  ]);
  await page.locator("#back").click();
  await page.locator("#back").click();
  assert.equal(await text(page, "notes"), "Note: Pull it tight.");
});

test("nothing of a pattern runs, and nothing is asked of a network", async () => {
  const nasty = `</script><script>document.title='owned'</script><img src=x onerror=document.title='owned'>&<!--`;
  const path = written(
    "nasty",
    `pattern "${nasty}"\nabout "<svg onload=document.title='owned'>"\nauthor "${nasty}"\n` +
      `thread kelp #1f5d50 "${nasty}"\nthread sand #e3c888\nstrands kelp sand\nsets 2\n` +
      `set {\n  section "${nasty}" {\n    note "${nasty}"\n    take left 1: forward 1\n    take right 1: backward 1\n  }\n}\n`,
  );
  const page = await open(await context(), sheetOf(path));
  await page.locator("#next").click();
  assert.equal(await page.title(), nasty);
  assert.equal(await page.locator("h1").textContent(), nasty);
  assert.ok((await text(page, "text")).includes(nasty));
  assert.equal(await page.locator("img").count(), 0);
  assert.equal(page.asked.length, 1, `only the sheet itself: ${page.asked}`);
  assert.deepEqual(page.said, []);
  // The policy holds: a script that is put in later does not run.
  await page.evaluate(() => {
    const script = document.createElement("script");
    script.textContent = "document.title = 'owned'";
    document.body.append(script);
  });
  assert.equal(await page.title(), nasty);
  assert.ok(page.said.some((said) => said.includes("Content Security Policy")));
});

test("without scripts all steps can be read", async () => {
  const page = await open(await context({ javaScriptEnabled: false }), sheetOf(pattern("lamp-moth")));
  assert.ok(await page.getByText("Scripts are off here").isVisible());
  assert.ok(!(await page.locator("#follow").isVisible()));
  assert.ok(await page.locator("#all li").first().isVisible());
});

for (const [name, set] of Object.entries({
  light: { colorScheme: "light" },
  dark: { colorScheme: "dark" },
  phone: { viewport: { width: 360, height: 740 }, isMobile: true, hasTouch: true },
})) {
  test(`axe-core finds nothing: ${name}`, async () => {
    // The page's policy lets nothing in from elsewhere, axe-core neither; for this test it is lifted.
    const browsing = await context({ ...set, bypassCSP: true, reducedMotion: "reduce" });
    for (const band of ["lamp-moth", "breakwater", "ahoy"]) {
      const page = await open(browsing, sheetOf(pattern(band), "--language", band === "ahoy" ? "de" : "en"));
      await page.locator("#next").click();
      await page.addScriptTag({ content: axe });
      const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
      const told = found.violations.map((of) => `${of.id}: ${of.nodes.map((node) => node.html.slice(0, 120)).join("; ")}`);
      assert.deepEqual(told, [], band);
      const sideways = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      assert.ok(sideways <= 0, `${band}: ${sideways} pixels to scroll sideways`);
      await page.close();
    }
  });
}

test("printed, it is black on white, with the chart and boxes to tick", async () => {
  const page = await open(await context({ colorScheme: "dark" }), sheetOf(pattern("lamp-moth")));
  await page.emulateMedia({ media: "print", colorScheme: "dark" });
  assert.ok(!(await page.locator("#follow").isVisible()) && !(await page.locator("#picture").isVisible()));
  assert.ok(await page.locator("#chart svg").isVisible());
  assert.equal(await page.locator(".boxes.sets input").count(), 6);
  const colors = await page.evaluate(() => {
    const style = (of) => getComputedStyle(document.querySelector(of));
    return [style("html").backgroundColor, style("html").color, style("#all li").color];
  });
  assert.deepEqual(colors, ["rgb(255, 255, 255)", "rgb(0, 0, 0)", "rgb(0, 0, 0)"]);
  const gray = await page.locator("#chart svg").evaluate((svg) => {
    const colors = [...svg.querySelectorAll("[fill],[stroke]")].flatMap((of) => [of.getAttribute("fill"), of.getAttribute("stroke")]);
    return colors.filter((color) => color && /^#/.test(color)).every((color) => {
      const digits = color.length === 4 ? [...color.slice(1)].map((digit) => digit + digit) : color.slice(1).match(/../g);
      const [red, green, blue] = digits.map((pair) => parseInt(pair, 16));
      return Math.max(red, green, blue) - Math.min(red, green, blue) <= 10;
    });
  });
  assert.ok(gray, "no color in the chart");
  const pdf = await page.pdf({ format: "A4" });
  assert.ok(pdf.length > 10_000);
});
