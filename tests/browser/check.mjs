// The pages in a real browser: scripts off, a form filled and sent, links followed, printed, at a phone's width;
// and once more with scripts on, so that axe-core can read every page in every guise.
//
//     WALLWRIGHT=.venv/bin/wallwright node --test check.mjs
//
// WALLWRIGHT is the installed command, CHROMIUM the browser; the service is started on a port of its own.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { createServer } from "node:net";
import { after, before, test } from "node:test";
import { chromium } from "playwright-core";

const wallwright = process.env.WALLWRIGHT ?? "wallwright";
const executablePath = process.env.CHROMIUM ?? "/usr/bin/chromium";
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const POINTS_AN_INCH = 72;
const SHEETS = 1 + 4 * 4; // the plan, then framing, sheathing, nailing and raising of each wall
let service, browser, base;

const freePort = () => new Promise((done) => {
  const probe = createServer().listen(0, "127.0.0.1", () => {
    const { port } = probe.address();
    probe.close(() => done(port));
  });
});

before(async () => {
  const port = await freePort();
  base = `http://127.0.0.1:${port}`;
  service = spawn(wallwright, ["serve", "--port", String(port)], { stdio: "ignore" });
  browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-quic"] });
  for (let tries = 0; tries < 100; tries += 1) {
    if (await fetch(`${base}/health`).then((answer) => answer.ok, () => false)) return;
    await new Promise((done) => setTimeout(done, 200));
  }
  throw new Error("the service does not answer");
});

after(async () => {
  await browser?.close();
  service?.kill();
});

async function plain(options = {}) {
  const context = await browser.newContext({ javaScriptEnabled: false, ...options });
  const page = await context.newPage();
  page.problems = [];
  page.on("console", (message) => message.type() === "error" && page.problems.push(message.text()));
  page.on("requestfailed", (request) => page.problems.push(request.url()));
  return page;
}

async function answered(page) {
  await page.goto(`${base}/`);
  await page.getByRole("button", { name: "Work it out" }).first().click();
  await page.waitForURL(/\?/);
}

const WALL_PAGES = ["/wall", "/sheathing", "/fasteners", "/raising"];
const DOUBTED = "/?units=in&width=14&depth=10%27+14%22&wall_height=7.5&front.1.left=4.5&edit=1";
const plainPages = () => ["/", "/?example=field-office", DOUBTED, ...WALL_PAGES, "/wall?z=x", "/squaring", "/order", "/published",
  "/reference", "/problems/two-people", "/problems/none"]
  .map((path) => base + path);

// The address of the answer to the worked example of a deck.
async function squaredDeck(page) {
  const other = await page.context().newPage();
  await other.goto(`${base}/squaring`);
  await other.getByRole("button", { name: "Square the deck" }).click();
  await other.waitForURL(/of=deck/);
  assert.equal(await other.locator("svg").count(), 1);
  const address = other.url();
  await other.close();
  return address;
}

test("the example is sent as it stands and answered with drawings", async () => {
  const page = await plain();
  await answered(page);
  assert.equal(await page.locator("svg").count(), SHEETS);
  assert.equal(await page.locator("h1").innerText(), "pump house");
  assert.deepEqual(page.problems, []);
});

test("a form is filled by hand, an opening added and removed, and the values stay", async () => {
  const page = await plain();
  await page.goto(`${base}/`);
  await page.getByLabel("Name", { exact: true }).first().fill("field office");
  await page.getByLabel("Width of the front (required)").fill("16'");
  await page.getByRole("button", { name: "Add an opening to the back wall" }).click();
  await page.waitForURL(/back\.1\.name/);
  const back = page.getByRole("group", { name: "Back opening 1" });
  for (const [label, value] of [["Left", "6'"], ["Width", "3'"], ["Height", "2'"], ["Sill", "4'"]]) {
    await back.getByLabel(label).fill(value);
  }
  await page.getByRole("button", { name: "Remove front opening 1" }).click();
  await page.waitForURL((url) => !url.search.includes("front.1") && url.search.includes("edit=1"));
  await page.getByRole("button", { name: "Work it out" }).first().click();
  await page.waitForURL(/was=/);
  assert.equal(await page.locator("h1").innerText(), "field office");
  assert.equal(await page.locator("svg").count(), SHEETS);
  await page.reload();
  assert.equal(await page.locator("svg").count(), SHEETS);
  assert.deepEqual(page.problems, []);
});

test("a partition is added, a second example is chosen, and what is folded away can be opened", async () => {
  const page = await plain();
  await page.goto(`${base}/`);
  await page.getByRole("button", { name: "Add a partition to the back wall" }).click();
  await page.waitForURL(/back\.p1\.at/);
  const row = page.getByRole("group", { name: "Back partition 1" });
  await row.getByLabel("Left face").fill("6'");
  await row.getByLabel("Width of its plate").fill('3 1/2"');
  await page.locator("summary", { hasText: "Hands and fasteners" }).click();
  await page.getByLabel("Hands to raise a wall").fill("6");
  await page.getByRole("button", { name: "Work it out" }).last().click();
  await page.waitForURL(/hands=6/);
  assert.equal(await page.locator("svg").count(), SHEETS);
  await page.goto(`${base}/`);
  await page.getByRole("link", { name: /^Boat store/ }).click();
  assert.equal(await page.locator('[name="width"]').inputValue(), "4800");
  assert.deepEqual(page.problems, []);
});

test("a frame that was measured is squared", async () => {
  const page = await plain();
  await page.goto(`${base}/squaring`);
  await page.getByLabel("Diagonal, bottom left to top right (required)").fill("wide");
  await page.getByRole("button", { name: "Square the frame" }).click();
  await page.waitForURL(/frame_rising=wide/);
  assert.match(await page.title(), /^Error: /);
  await page.getByLabel("Diagonal, bottom left to top right (required)").fill("15' 10 1/4\"");
  await page.getByRole("button", { name: "Square the frame" }).click();
  await page.waitForURL(/frame_rising=15/);
  assert.match(await page.locator(".verdict").innerText(), /^Rack it: push the top plate 3\/16" to the left/);
  assert.deepEqual(page.problems, []);
});

test("a wall's pages lead to one another, to squaring and back to the building", async () => {
  const page = await plain();
  await answered(page);
  await page.getByRole("link", { name: "Framing of the front wall" }).click();
  await page.waitForURL(/\/wall\?z=/);
  for (const name of ["Sheathing", "Fasteners", "Raising", "Framing"]) {
    await page.getByRole("link", { name, exact: true }).click();
    assert.match(await page.locator("h1").innerText(), new RegExp(`^pump house, front wall: ${name.toLowerCase()}$`));
    assert.equal(await page.locator("svg").count(), 1);
  }
  await page.getByRole("link", { name: "The whole building" }).click();
  await page.waitForURL(/\/\?/);
  assert.equal(await page.locator("svg").count(), SHEETS);
  assert.deepEqual(page.problems, []);
});

test("by keyboard alone a form is filled, an opening added, the question asked and a wall's page opened", async () => {
  const page = await plain();
  await page.goto(`${base}/`);
  // Tab until what has the focus answers to a name, as one who has no mouse must.
  const reach = async (matches) => {
    for (let steps = 0; steps < 400; steps += 1) {
      await page.keyboard.press("Tab");
      const at = await page.evaluate(() => {
        const on = document.activeElement;
        return `${on.name ?? ""}|${on.value ?? ""}|${on.textContent.trim()}`;
      });
      if (matches.test(at)) return;
    }
    assert.fail(`${matches} is not reached`);
  };
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter"); // the link past the pages' names
  assert.match(page.url(), /#main$/);
  await reach(/^width\|/);
  await page.keyboard.press("Control+A");
  await page.keyboard.type("16'");
  await reach(/^do\|add-back\|/);
  await page.keyboard.press("Enter");
  await page.waitForURL(/back\.1\.name/);
  for (const [name, value] of [["left", "6'"], ["width", "3'"], ["height", "2'"], ["sill", "4'"]]) {
    await reach(new RegExp(`^back\\.1\\.${name}\\|`));
    await page.keyboard.type(value);
  }
  await page.keyboard.press("Enter");
  await page.waitForURL(/was=/);
  assert.equal(await page.locator("svg").count(), SHEETS);
  await reach(/Framing of the front wall$/);
  await page.keyboard.press("Enter");
  await page.waitForURL(/\/wall\?z=/);
});

test("a wall's own page is printed as its drawing and at most two sheets of lists", async () => {
  const page = await plain();
  for (const path of WALL_PAGES) {
    await page.goto(base + path);
    const printed = sheets(await page.pdf({ preferCSSPageSize: true, format: "Letter" }));
    assert.ok(Math.abs(printed[0][0] - 279.4) < 0.6, `${path} begins with its drawing`);
    assert.ok(printed.length >= 2 && printed.length <= 3, `${path}: ${printed.length} sheets`);
  }
});

test("the published figures are narrowed to an edition", async () => {
  const page = await plain();
  await page.goto(`${base}/published`);
  const all = await page.locator("table").count();
  await page.getByLabel("Edition of the residential code").selectOption("2015");
  await page.getByRole("button", { name: "Show" }).click();
  await page.waitForURL(/edition=2015/);
  assert.ok(await page.locator("table").count() < all);
});

test("Enter in a field asks the question and removes nothing", async () => {
  const page = await plain();
  await page.goto(`${base}/`);
  await page.locator('[name="front.1.left"]').press("Enter");
  await page.waitForURL(/was=/);
  assert.equal(await page.locator("svg").count(), SHEETS);
});

test("units are changed with the lengths", async () => {
  const page = await plain();
  await page.goto(`${base}/`);
  await page.getByLabel("millimetres").check();
  await page.getByRole("button", { name: "Change units" }).click();
  await page.waitForURL(/units=mm/);
  assert.equal(await page.locator('[name="width"]').inputValue(), "4267.2 mm");
});

test("a fault is told beside its field, and its link leads there", async () => {
  const page = await plain();
  await page.goto(`${base}/`);
  await page.locator('[name="depth"]').fill("deep");
  await page.getByRole("button", { name: "Work it out" }).last().click();
  await page.waitForURL(/depth=deep/);
  assert.match(await page.title(), /^Error: /);
  await page.getByRole("link", { name: "Depth of the sides" }).click();
  assert.match(page.url(), /#depth$/);
  assert.equal(await page.locator('[name="depth"]').inputValue(), "deep");
});

test("every link of every page leads somewhere", async () => {
  const page = await plain();
  const seen = new Set();
  const open = [`${base}/`, `${base}/reference`, `${base}/squaring`, `${base}/published`, `${base}/wall`];
  await answered(page);
  open.push(page.url());
  for (const from of open) {
    await page.goto(from);
    for (const link of await page.locator("a[href]").all()) {
      const target = new URL(await link.getAttribute("href"), from);
      target.hash = "";
      seen.add(target.href);
    }
  }
  for (const target of seen) {
    const answer = await fetch(target, { headers: { accept: "text/html" } });
    assert.equal(answer.status, 200, target);
  }
  assert.ok(seen.size > 30, `${seen.size} links`);
});

for (const width of [320, 360, 1280]) {
  test(`no page is wider than ${width} px`, async () => {
    const page = await plain({ viewport: { width, height: 740 } });
    await answered(page);
    const squared = await squaredDeck(page);
    for (const path of [page.url(), squared, ...plainPages()]) {
      await page.goto(path);
      const wide = await page.locator("html").evaluate((html) => html.scrollWidth);
      assert.ok(wide <= width, `${path} is ${wide} px wide`);
    }
  });
}

const sheets = (pdf) => [...pdf.toString("latin1").matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)]
  .map(([, wide, high]) => [Number(wide) / POINTS_AN_INCH * 25.4, Number(high) / POINTS_AN_INCH * 25.4]);

for (const [units, [wide, high]] of Object.entries({ in: [279.4, 215.9], mm: [297, 210] })) {
  test(`in ${units}, plan and four drawings a wall are printed each on a sheet of its size`, async () => {
    const page = await plain();
    await page.goto(`${base}/`);
    if (units === "mm") {
      await page.getByLabel("millimetres").check();
      await page.getByRole("button", { name: "Change units" }).click();
      await page.waitForURL(/units=mm/);
    }
    await page.getByRole("button", { name: "Work it out" }).first().click();
    await page.waitForURL(/was=/);
    const printed = sheets(await page.pdf({ preferCSSPageSize: true, format: units === "in" ? "Letter" : "A4" }));
    const lying = printed.filter(([w, h]) => Math.abs(w - wide) < 0.6 && Math.abs(h - high) < 0.6);
    assert.equal(lying.length, SHEETS);
    assert.ok(printed.length <= SHEETS + 4 + 4 * 2, `${printed.length} sheets`);
    // On the other paper, where the printer fits each sheet to it, no sheet breaks in two.
    const other = sheets(await page.pdf({
      preferCSSPageSize: false, landscape: true, format: units === "in" ? "A4" : "Letter",
    }));
    assert.ok(other.length <= SHEETS + 6 + 4 * 4, `${other.length} sheets`);
  });
}

const guises = {
  light: {}, dark: { colorScheme: "dark" }, forced: { forcedColors: "active" }, phone: { viewport: { width: 360, height: 740 } },
  narrow: { viewport: { width: 320, height: 740 } }, "text twice as large": { twice: true },
};
for (const [guise, { twice, ...options }] of Object.entries(guises)) {
  test(`axe-core finds nothing, ${guise}`, async () => {
    const helper = await plain();
    await answered(helper);
    const squared = await squaredDeck(helper);
    const wrong = [`${base}/?units=in&width=x`, `${base}/squaring?of=frame&frame_width=x`];
    const every = [helper.url(), squared, ...wrong, ...plainPages()];
    // In light every page is read; in the other guises, which are one stylesheet's, one of each kind of page.
    const likeAnother = /[/](sheathing|fasteners|raising|order|published|reference)$|example=/;
    const paths = guise === "light" ? every : every.filter((path) => !likeAnother.test(path));
    // Only here do scripts run, past the content policy, so that the reader can be put into the page.
    const context = await browser.newContext({ bypassCSP: true, ...options });
    for (const path of paths) {
      const page = await context.newPage();
      await page.goto(path);
      if (twice) {
        await page.addStyleTag({ content: "html{font-size:200%}" });
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
        assert.ok(wide <= 0, `${path} runs ${wide} px past the window`);
      }
      await page.addScriptTag({ content: axe });
      const found = await page.evaluate(() => axe.run());
      assert.deepEqual(found.violations.map((one) => `${one.id}: ${one.nodes[0].html}`), [], path);
      assert.ok(found.passes.length > 10);
      await page.close();
    }
    await context.close();
  });
}
