// Saves the reload: a form is sent, the page that comes back takes the place of this one.
// Everything works without this file, by ordinary forms and links.

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
  if (!saved) return;
  saved.textContent = words;
  saved.classList.toggle("failed", failed);
}

// What a page needs once it is there.
function liven() {
  pickers();
  settings();
  count();
  speak();
}

async function take(response, sent) {
  const fresh = new DOMParser().parseFromString(await response.text(), "text/html");
  const open = [...document.querySelectorAll("details.folded")].map((d) => d.open);
  document.body.replaceChildren(...fresh.body.childNodes);
  document.title = fresh.title;
  liven();
  if (response.ok) history.replaceState(null, "", response.url);
  // What was unfolded stays unfolded while the same things are there to fold.
  const now = [...document.querySelectorAll("details.folded")];
  if (now.length === open.length && response.ok) now.forEach((d, i) => (d.open = d.open || open[i]));
  const refused = document.querySelector(".refusal");
  if (refused) {
    refused.scrollIntoView({ block: "center" });
    refused.closest(".field, form")?.querySelector("input:not([type=hidden]), select, textarea")?.focus();
  } else settle(sent);
}

// Photos are sent as files, all else as text.
function body(form) {
  const data = new FormData(form);
  return form.enctype === "multipart/form-data" ? data : new URLSearchParams(data);
}

let sending = false;

async function send(form) {
  if (sending) return;
  sending = true;
  say("Saving …", false);
  try {
    // The same form keeps the same entry id, so sending again after a failure records once.
    const response = await fetch(form.action, { method: "POST", body: body(form) });
    await take(response, form.querySelector("[id]")?.id);
  } catch {
    say("Not saved: the bench does not answer. Press again when it does; nothing is lost.", true);
  } finally {
    sending = false;
  }
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (!form.matches("form[data-live]")) return;
  event.preventDefault();
  send(form);
});

// Pointing at a cell of the grid asks for that spot, without losing the place on the page.
document.addEventListener("click", async (event) => {
  const link = event.target.closest(".grid a");
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
  event.preventDefault();
  try {
    await take(await fetch(link.href));
    writing()?.focus({ preventScroll: true });
  } catch {
    location.href = link.href;
  }
});

// A chosen file is read into the text beside it, and sent as text.
function pickers() {
  for (const picker of document.querySelectorAll("input[data-into]")) picker.hidden = false;
}

document.addEventListener("change", async (event) => {
  const picker = event.target;
  if (!picker.matches("input[data-into]") || !picker.files.length) return;
  document.getElementById(picker.dataset.into).value = await picker.files[0].text();
});

// A photo is sent as soon as it is taken or chosen.
document.addEventListener("change", (event) => {
  const picker = event.target;
  if (picker.matches("input[data-send]") && picker.files.length) picker.form.requestSubmit();
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

function speak() {
  const question = document.querySelector("#next .question");
  if (!keeps("aloud") || !question || !("speechSynthesis" in window)) return;
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

// Working times: counted down in sight, and heard when five minutes, one minute and nothing are left.
// A browser lets a page sound only after a tap or a key; the one that began the step is such. A page that
// is loaded while a clock runs asks at once: most browsers remember the tap that led to it.
let sound;
function wake() {
  try {
    sound ??= new AudioContext();
    sound.resume();
  } catch {
    // A page that cannot sound still counts.
  }
}
for (const touch of ["click", "pointerup", "keydown"]) document.addEventListener(touch, wake);

function beep(times) {
  if (sound?.state !== "running") return;
  for (let i = 0; i < times; i++) {
    const tone = sound.createOscillator();
    const gain = sound.createGain();
    const at = sound.currentTime + i * 0.4;
    tone.frequency.value = 880;
    gain.gain.value = 0.2;
    tone.connect(gain).connect(sound.destination);
    tone.start(at);
    tone.stop(at + 0.2);
  }
}

const LIMITS = [[0, 5], [60, 2], [300, 1]];
const heard = new Map();

function count() {
  for (const time of document.querySelectorAll("time[data-left]")) {
    const left = Math.ceil((Date.parse(time.dateTime) - Date.now()) / 1000);
    const size = Math.abs(left);
    const two = (n) => String(n).padStart(2, "0");
    const clock = `${size >= 3600 ? `${Math.floor(size / 3600)}:` : ""}${two(Math.floor(size / 60) % 60)}:${two(size % 60)}`;
    time.textContent = left >= 0 ? `${clock} left` : `run out ${clock} ago`;
    time.closest(".clock").classList.toggle("over", left < 0);
    const limit = LIMITS.find(([seconds]) => left <= seconds);
    const before = heard.get(time.dateTime);
    const now = limit ? limit[0] : Infinity;
    if (before !== undefined && now < before) beep(limit[1]);
    heard.set(time.dateTime, now);
  }
}

setInterval(count, 500);
liven();
if (document.querySelector(".clock")) wake();
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
