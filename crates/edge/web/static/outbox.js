// What this device keeps until the bench has it: forms that were sent, with their files, in order.
// A browser that keeps nothing holds them while the page is open.

// Larger files are not copied; they wait with the page.
const LARGEST_KEPT = 64e6;

let database;
let held = [];
const tell = "BroadcastChannel" in window ? new BroadcastChannel("outbox") : null;

export function opened() {
  database ??= new Promise((done) => {
    try {
      const request = indexedDB.open("pumpwright", 1);
      request.onupgradeneeded = () => request.result.createObjectStore("outbox", { keyPath: "key" });
      request.onsuccess = () => {
        // A browser may close it, over a sleep for one; the next asks anew.
        request.result.onclose = () => (database = undefined);
        done(request.result);
      };
      request.onerror = request.onblocked = () => {
        database = undefined;
        done(null);
      };
    } catch {
      done(null);
    }
  });
  return database;
}

// One request; done when it is on the disk.
async function ask(mode, request, durability) {
  const kept = await opened();
  if (!kept) throw new Error("this browser keeps nothing");
  return new Promise((done, failed) => {
    const transaction = kept.transaction("outbox", mode, { durability });
    const answer = request(transaction.objectStore("outbox"));
    transaction.oncomplete = () => done(answer.result);
    transaction.onerror = transaction.onabort = () => failed(transaction.error);
  });
}

// A disk that is busy holds nothing up. What was asked of it still comes to pass, in order.
function soon(asked) {
  const late = new Promise((_, failed) => setTimeout(failed, 1000, new Error("the disk is busy")));
  return Promise.race([asked, late]);
}

const inOrder = (acts) => acts.sort((a, b) => a.pressed - b.pressed || (a.key < b.key ? -1 : 1));

// What the disk said last, and what it need not say any more: it may be slow to forget, or unable to.
let last = [];
const gone = new Set();
// The version of each act that was kept last: an older one may be on its way still.
const newest = new Map();
let come;

const without = (acts, { key }) => acts.filter((other) => other.key !== key);
const among = (acts, { key }) => acts.some((other) => other.key === key);

// Every act that the bench does not have yet, as they were pressed. What a slow disk knew besides is told later.
export async function all() {
  const asked = ask("readonly", (acts) => acts.getAll());
  last = await soon(asked).catch(() => {
    asked.then(late, () => {});
    return last;
  });
  const both = [...held, ...last.filter((act) => !among(held, act))];
  return inOrder(both.filter(({ key }) => !gone.has(key)));
}

function late(kept) {
  const more = kept.some((act) => !among(last, act) && !gone.has(act.key));
  last = kept;
  if (more) come?.();
}

export async function put(act) {
  const plain = { ...act };
  delete plain.held;
  gone.delete(act.key);
  newest.set(act.key, plain);
  const size = act.fields.reduce((sum, [, value]) => sum + (value.size ?? 0), 0);
  const kept = size > LARGEST_KEPT ? Promise.reject() : ask("readwrite", (acts) => acts.put(plain), "strict");
  const settled = () => {
    if (newest.get(act.key) !== plain) return;
    held = without(held, act);
    last = [...without(last, act), plain];
  };
  kept.then(settled, () => {});
  await soon(kept).catch(() => {
    held = [...without(held, act), { ...plain, held: true }];
  });
  tell?.postMessage("");
}

// Whether something would be lost with this page.
export function holds() {
  return held.length > 0;
}

export async function remove(act) {
  gone.add(act.key);
  newest.delete(act.key);
  held = without(held, act);
  await soon(ask("readwrite", (acts) => acts.delete(act.key))).catch(() => {});
  tell?.postMessage("");
}

// Another page of this browser changed what waits; or the disk had more than it said.
export function onchange(act, more) {
  if (tell) tell.onmessage = act;
  come = more;
}

// The time of a press with its zone: 2026-05-09T12:32:00.000+02:00[+02:00]
export function zoned(time) {
  const offset = -new Date(time).getTimezoneOffset();
  const two = (n) => String(Math.floor(n)).padStart(2, "0");
  const zone = `${offset < 0 ? "-" : "+"}${two(Math.abs(offset) / 60)}:${two(Math.abs(offset) % 60)}`;
  return `${new Date(time + offset * 60_000).toISOString().slice(0, -1)}${zone}[${zone}]`;
}

// Not let in, too busy, or the wrong bench at this address: none of them says anything about the act.
const NOT_NOW = [401, 403, 408, 421, 425, 429];
const PATIENCE = { text: 20_000, files: 600_000 };

// Ends a request after so many milliseconds.
export function within(time) {
  const ending = new AbortController();
  setTimeout(() => ending.abort(), time);
  return ending.signal;
}

// Sends an act. It landed, it is refused, or it waits; the bench knows it again by its id.
export async function deliver(act, late) {
  const data = act.files ? new FormData() : new URLSearchParams();
  // Words stand before files.
  if (late) data.append("act_at", zoned(act.pressed));
  for (const [name, value] of act.fields) data.append(name, value);
  let response, page;
  try {
    const signal = within(act.files ? PATIENCE.files : PATIENCE.text);
    response = await fetch(act.action, { method: "POST", body: data, signal });
    page = new DOMParser().parseFromString(await response.text(), "text/html");
  } catch {
    return { waits: "the bench does not answer" };
  }
  const { url, status } = response;
  if (response.ok && page.querySelector("main[data-position]")) return { landed: true, page, url };
  if (response.ok || status === 401 || status === 403) return { waits: "the bench does not let this device in" };
  if (NOT_NOW.includes(status) || status >= 500) return { waits: `the bench cannot take them now (${status})` };
  const why = page.querySelector(".refusal") ?? page.querySelector("#answer") ?? page.body;
  return { landed: false, refused: why.textContent.replace(/\s+/g, " ").trim(), page, url };
}
