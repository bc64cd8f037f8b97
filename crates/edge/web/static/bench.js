// Saves the reload: a form is sent, the page that comes back takes the place of this one.
// Everything works without this file, by ordinary forms and links.

import { count } from "./clock.js";
import { listen } from "./live.js";
import * as outbox from "./outbox.js";
import * as typed from "./typed.js";

const coarse = matchMedia("(pointer: coarse)").matches;

function writing() {
  return document.querySelector(".writing input[type=text]");
}

// A caliper or a pedal types without looking, so the field waits for it; a phone keeps its keyboard down.
// Without a field, whoever works by keys goes on where they were: at the form they sent, or at the question,
// and not on a button, so that a key pressed once more does nothing.
function settle(sent) {
  if (coarse) return document.activeElement?.blur();
  const form = sent && document.getElementById(sent)?.closest("details")?.querySelector("summary");
  const at = writing() ?? form ?? document.querySelector(".question, .fill");
  if (at?.matches(".question, .fill")) at.tabIndex = -1;
  at?.focus({ preventScroll: true });
}

function say(words, failed) {
  const saved = document.querySelector("#saved");
  if (!saved) return line("waits", ...(failed ? [piece("p", words)] : []));
  saved.dataset.drawn ??= saved.textContent;
  saved.textContent = words ?? saved.dataset.drawn;
  saved.classList.toggle("failed", failed);
}

// A line under the head of the page: what came from others, and what the bench did not take.
function line(id, ...parts) {
  document.getElementById(id)?.remove();
  if (!parts.length) return;
  const told = document.createElement("aside");
  told.id = id;
  told.className = "told";
  told.setAttribute("role", "status");
  told.append(...parts);
  document.querySelector(".top")?.after(told);
}

function piece(kind, words, act) {
  const made = document.createElement(kind);
  made.textContent = words;
  if (act) Object.assign(made, { type: "button", className: "other", onclick: act });
  return made;
}

// What a page needs once it is there.
function liven() {
  for (const button of document.querySelectorAll("[data-print]")) button.hidden = false;
  pickers();
  settings();
  count();
  speak();
  listen(main()?.dataset.listen, hear, answers);
  show();
}

const main = () => document.querySelector("main");
const known = () => Number(main()?.dataset.position ?? 0);
const asked = () => document.querySelector("#next")?.textContent;

// What was unfolded stays unfolded, by its heading.
function folds() {
  const counts = new Map();
  return [...document.querySelectorAll("details.folded")].map((fold) => {
    const summary = fold.querySelector("summary");
    const name = (summary?.firstElementChild ?? summary)?.textContent ?? "";
    counts.set(name, (counts.get(name) ?? 0) + 1);
    return [`${name} ${counts.get(name)}`, fold];
  });
}

// Another page takes the place of this one. What is typed in a form that was not sent goes along.
function replace(page, sent) {
  // What was sent is done with; refused, its own page unfolds it.
  const done = sent?.closest("details");
  const open = new Map(folds().map(([name, fold]) => [name, fold.open && fold !== done]));
  const unsent = typed.typed();
  document.body.replaceChildren(...page.body.childNodes);
  document.title = page.title;
  for (const [name, fold] of folds()) fold.open ||= open.get(name) ?? false;
  const lost = typed.put(unsent);
  liven();
  homeless(lost);
}

function homeless(lost) {
  if (lost.length) line("lost", piece("p", `Typed, and without a place on this page now: ${lost.join("; ")}`));
}

function take({ page, url, landed }, sent) {
  const form = sent?.querySelector("[id]")?.id;
  const back = page.querySelector("input[name=back]")?.value;
  replace(page, sent);
  // The next question is there, and may be answered.
  [sending, hand] = [0, 0];
  typed.forget();
  if (landed ?? !page.querySelector(".refusal")) history.replaceState(null, "", url);
  else if (back?.startsWith("/")) history.replaceState(null, "", back);
  typed.keep();
  const refused = document.querySelector(".refusal");
  if (refused) {
    refused.scrollIntoView({ block: "center" });
    refused.closest(".field, form")?.querySelector("input:not([type=hidden]), select, textarea")?.focus();
  } else settle(form);
}

async function load(url) {
  const response = await fetch(url, { signal: outbox.within(20_000) });
  const page = new DOMParser().parseFromString(await response.text(), "text/html");
  return { page, url: response.url, ok: response.ok };
}

// Everything sent goes through the outbox: kept on this device first, sent in order, taken out when the
// bench has it. The same form keeps its entry id, so what is sent twice is on record once.
let turn = Promise.resolve();
let sending = 0;
// When the last answer without a file was pressed, until its page is there.
let hand = 0;
let pause = 1000;
let retry;
let reason = "the bench does not answer";
const pressed = new Map();

function packed(form) {
  const action = form.getAttribute("action");
  return {
    key: form.elements.id?.value ?? String(Date.now()),
    job: action.split("/")[2] ?? "",
    action,
    files: form.enctype === "multipart/form-data",
    fields: [...new FormData(form)],
    pressed: Date.now(),
    what: (form.querySelector("h3") ?? form.querySelector("label, button"))?.firstChild?.textContent.trim() ?? "",
    tried: 0,
  };
}

const filled = (form) => JSON.stringify([...new FormData(form)].filter(([name]) => name !== "id"));

// What was sent of a form is marked on it, until somebody writes in it again.
async function send(form) {
  const act = packed(form);
  // One photo after another is no trembling finger, nor a second answer before the next question is there.
  const another = act.fields.some(([, value]) => value.size > 0);
  if (!another && (form.dataset.sent === filled(form) || act.pressed - hand < 3000)) return;
  if (pressed.has(act.key)) return;
  sending = act.pressed;
  if (!another) hand = act.pressed;
  pressed.set(act.key, { form, act });
  if (another) empty(form);
  form.dataset.sent = filled(form);
  say("Sending …", false);
  await outbox.put(act);
  pause = 1000;
  await drain();
  await show();
  hear(latest);
}

function empty(form) {
  form.reset();
  if (form.elements.id) form.elements.id.value = fresh();
}

// The form is ready for the next, or stays as it was changed meanwhile; the act has its own place now.
async function waits(form, act) {
  act.tried ||= 1;
  await outbox.put(act);
  if (!form.isConnected) return;
  if (form.elements.id?.value === act.key) form.elements.id.value = fresh();
  if (form.dataset.sent) {
    if (form.matches(".writing")) empty(form);
    form.dataset.sent = filled(form);
    form.dataset.waits = "";
  }
  typed.keep();
}

function fresh() {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

function drain() {
  clearTimeout(retry);
  return (turn = turn.then(deliverAll, deliverAll));
}

// Job by job, each in the order of pressing. An act that is refused holds back those pressed after it until it
// was shown: they may have built on it.
async function deliverAll() {
  const stuck = new Set();
  let landed = false;
  for (;;) {
    const acts = await outbox.all();
    for (const act of acts) if (act.refused) stuck.add(act.job);
    const act = acts.find(({ job }) => !stuck.has(job));
    if (!act) break;
    const own = pressed.get(act.key);
    const form = own?.form;
    // What was just pressed is sent as it is; the copy is for later.
    const came = await outbox.deliver(own?.act ?? act, !form || act.tried > 0);
    if (came.waits) {
      reason = came.waits;
      stuck.add(act.job);
      act.tried += 1;
      await outbox.put(act);
    } else if (form?.isConnected) {
      take(came, form);
      pressed.delete(act.key);
      await outbox.remove(act);
    } else if (came.refused) {
      pressed.delete(act.key);
      if (here(act) && !busy() && !document.hidden) {
        take(came);
        await outbox.remove(act);
      } else await outbox.put({ ...act, refused: came.refused });
    } else {
      pressed.delete(act.key);
      landed = true;
      await outbox.remove(act);
    }
  }
  for (const act of await outbox.all()) {
    const own = stuck.has(act.job) && pressed.get(act.key);
    if (!own) continue;
    await waits(own.form, act);
    pressed.delete(act.key);
  }
  if (!pressed.size) [sending, hand] = [0, 0];
  if ((await show()).length) {
    retry = setTimeout(drain, pause);
    pause = Math.min(2 * pause, 30_000);
  }
  if (landed) renew();
}

const here = ({ fields }) => fields.some(([name, value]) => name === "back" && value === location.pathname);

// Shows what was refused, with what was typed: the bench draws it once more.
async function reveal(act) {
  const came = await outbox.deliver(act, true);
  if (came.waits) return say(`Not shown: ${came.waits}.`, true);
  await outbox.remove(act);
  take(came);
  drain();
}

// Says truthfully what the bench has and what it has not; gives what still waits.
async function show() {
  const acts = await outbox.all();
  const refused = acts.filter((act) => act.refused);
  const after = ({ job }) => refused.some((act) => act.job === job);
  const waiting = acts.filter((act) => !act.refused && (act.tried || after(act)));
  const n = waiting.length;
  if (n) {
    const held = waiting.some((act) => act.held) ? " Leave this page open: it holds what this browser cannot keep." : "";
    const behind = waiting.every(after);
    const why = behind ? "what was refused comes first" : reason;
    const then = behind ? "after it" : "when it does";
    say(`${n === 1 ? "1 act waits" : `${n} acts wait`} on this device: ${why}. ${n === 1 ? "It is" : "They are"} sent ${then}.${held}`, true);
  } else say(sending || acts.length > refused.length ? "Sending …" : null, false);
  const lines = refused.map((act) => {
    const told = piece("p", `Refused: ${act.what}, pressed at ${new Date(act.pressed).toTimeString().slice(0, 5)}. ${act.refused} `);
    told.append(piece("button", "Show what was typed", () => reveal(act)));
    return told;
  });
  line("refused", ...lines);
  return waiting;
}

outbox.onchange(show, drain);
addEventListener("pageshow", (event) => event.persisted && drain());
addEventListener("beforeunload", (event) => outbox.holds() && event.preventDefault());
addEventListener("online", () => {
  pause = 1000;
  drain();
});

// What others do shows by itself while nothing is in hand here; else it is only told.
let latest = 0;
let hearing = false;
let shifted = -Infinity;

function busy() {
  if (sending || document.querySelector(".refusal")) return true;
  const at = document.activeElement;
  const field = at?.matches("input:not([type=hidden]), select, textarea") && at.closest("form");
  return Boolean(field && !(field.matches(".writing") && at.value === "")) || typed.typed().length > 0;
}

// What is only told goes by itself.
function fade() {
  const told = document.getElementById("news");
  setTimeout(() => told.remove(), 10_000);
}

function answers() {
  pause = 1000;
  if (!sending) drain();
}

async function hear(position) {
  latest = Math.max(latest, position);
  if (hearing || sending || latest <= known() || !main()?.dataset.since) return;
  hearing = true;
  const begun = latest;
  try {
    const { page } = await load(main().dataset.since + known());
    const news = page.querySelector(".news");
    const others = Number(news?.dataset.count ?? 0);
    await renew();
    if (!others) return;
    if (latest > known()) {
      const list = news.querySelector("ul");
      const button = piece("button", "Show", () => renew(true));
      line("news", ...news.querySelectorAll("p"), list, button);
    } else {
      const more = others > 1 ? ` And ${others - 1} more before.` : "";
      line("news", piece("p", `${news.querySelector("li:last-child").textContent}.${more}`));
      fade();
    }
  } catch {
    // The bench does not answer; the stream tells when it does.
  } finally {
    hearing = false;
    // What came while that was fetched.
    if (latest > begun) hear(latest);
  }
}

// The page as it is now, in place: where it was scrolled to, what was unfolded, where the focus was.
// Asked for, what is typed goes along.
async function renew(wanted) {
  if (busy() && !wanted) return;
  const address = location.href;
  const { page, ok } = await load(address).catch(() => ({}));
  const drawn = ok && page.querySelector("main");
  if (!drawn || (busy() && !wanted)) return;
  // Something landed meanwhile, and its page is newer.
  if (location.href !== address || Number(drawn.dataset.position ?? 0) < known()) return;
  const [top, before, at] = [scrollY, asked(), document.activeElement];
  const name = at?.name && at.closest("form")?.getAttribute("action");
  quiet = true;
  replace(page);
  quiet = false;
  typed.keep();
  if (asked() !== before) {
    if (!wanted) shifted = performance.now();
    speak();
  }
  scrollTo({ top, behavior: "instant" });
  const same = at?.id ? document.getElementById(at.id) : name && document.querySelector(`form[action="${name}"] [name="${at.name}"]`);
  const stood = same ?? alike(at);
  if (stood) stood.focus({ preventScroll: true });
  else if (writing() && !coarse) settle();
}

// Where whoever works by keys stood, on the page that came in its place: a fold by its words, or the question.
function alike(at) {
  if (at?.matches("summary")) return [...document.querySelectorAll("summary")].find((fold) => fold.textContent === at.textContent);
  const asks = at?.matches(".question, .fill") && document.querySelector(".question, .fill");
  if (asks) asks.tabIndex = -1;
  return asks;
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (!form.matches("form[data-live]")) return;
  event.preventDefault();
  // Aimed at the question that stood here before.
  if (performance.now() - shifted < 700) {
    line("news", piece("p", "The question changed under your hand. Look, and press again."));
    return fade();
  }
  send(form);
});

document.addEventListener("input", (event) => {
  const form = event.target.closest("form");
  delete form?.dataset.sent;
  delete form?.dataset.waits;
  typed.keep();
});

// Pointing at a cell of the grid asks for that spot, without losing the place on the page.
document.addEventListener("click", async (event) => {
  const link = event.target.closest(".grid a");
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
  event.preventDefault();
  try {
    take(await load(link.href));
    writing()?.focus({ preventScroll: true });
  } catch {
    // Going there would lose this page for one that says no more.
    say("The bench does not answer. This page stays as it was.", true);
  }
});

document.addEventListener("click", (event) => {
  if (event.target.closest("[data-print]")) print();
});

// A page may lie open for days before it is printed.
addEventListener("beforeprint", () => {
  const today = new Date().toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" });
  document.documentElement.dataset.printed = `Printed ${today}`;
});

// A chosen file is read into the text beside it, and sent as text.
function pickers() {
  for (const picker of document.querySelectorAll("input[data-into]")) picker.hidden = false;
  // A photo is sent as soon as it is taken or chosen, also when the page was renewed while the camera was open.
  for (const camera of document.querySelectorAll("input[data-send]")) camera.onchange = () => camera.files.length && send(camera.form);
}

document.addEventListener("change", async (event) => {
  const picker = event.target;
  if (!picker.matches("input[data-into]") || !picker.files.length) return;
  const text = await picker.files[0].text();
  const into = document.getElementById(picker.dataset.into);
  if (into) into.value = text;
  typed.keep();
});

// What a device keeps for itself: whether it reads the question aloud, for eyes on the leaf, and whether a page-turner
// under the foot answers. A browser that keeps nothing does neither.
function keeps(setting) {
  try {
    return localStorage.getItem(setting) === "yes";
  } catch {
    return false;
  }
}

function settings() {
  for (const button of document.querySelectorAll("[data-setting]")) {
    button.hidden = button.dataset.setting === "aloud" && !("speechSynthesis" in window);
    button.setAttribute("aria-pressed", String(keeps(button.dataset.setting)));
  }
}

let quiet = false;

function speak() {
  const question = document.querySelector("#next .question");
  if (quiet || !keeps("aloud") || !question || !("speechSynthesis" in window)) return;
  speechSynthesis.cancel();
  speechSynthesis.speak(new SpeechSynthesisUtterance(question.textContent.replace(/\s+/g, " ")));
}

document.addEventListener("click", (event) => {
  const setting = event.target.closest("[data-setting]")?.dataset.setting;
  if (!setting) return;
  try {
    localStorage.setItem(setting, keeps(setting) ? "no" : "yes");
  } catch {
    return;
  }
  settings();
  if (setting === "aloud") keeps(setting) ? speak() : speechSynthesis.cancel();
});

// A page-turner sends the keys that turn pages; forward is the first answer, back the last.
const TURNS = { PageDown: 0, ArrowRight: 0, PageUp: -1, ArrowLeft: -1 };

function turned(key) {
  if (!(key in TURNS) || !keeps("turner") || !writing()) return null;
  return [...document.querySelectorAll(".next .answers button[data-key]")].at(TURNS[key]);
}

// Keys: a letter presses its button; a digit, or a caliper's burst of them, goes into the field.
document.addEventListener("keydown", (event) => {
  // A key held down is one answer, not an answer to every question that follows.
  if (event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
  const field = writing();
  const at = document.activeElement;
  const elsewhere = at && at !== field && at.matches("input:not([type=range]), select, textarea");
  if (elsewhere) return;
  const empty = !field || field.value === "";
  const lettered = () => document.querySelector(`#next button[data-key="${CSS.escape(event.key)}"]`);
  const button = empty && (turned(event.key) ?? lettered());
  if (button) {
    event.preventDefault();
    button.form.requestSubmit();
  } else if (field && at !== field && /^[0-9.,<>]$/.test(event.key)) {
    field.focus({ preventScroll: true });
  }
});

liven();
homeless(typed.restore());
outbox.opened().then(drain);
if (writing()) settle();

// A slider tells at once what comes of it; a later place overtakes an earlier answer.
let trying;

document.addEventListener("input", async (event) => {
  const form = event.target.closest("form[data-try]");
  if (!form) return;
  const shown = event.target.nextElementSibling;
  shown.textContent = event.target.value + shown.dataset.unit;
  trying?.abort();
  trying = new AbortController();
  try {
    const where = `${form.dataset.try}?${new URLSearchParams(new FormData(form))}`;
    const answer = await fetch(where, { signal: trying.signal });
    if (answer.ok) form.nextElementSibling.innerHTML = await answer.text();
  } catch {
    // Overtaken, or the bench does not answer: the button still shows it.
  }
});
