// What this device keeps until the bench has it: forms that were sent, with their files, in order.
// A browser that keeps nothing holds them while the page is open.

// Larger files are not copied; they wait with the page.
const LARGEST_KEPT = 64e6;

let database;
const held = [];
const tell = "BroadcastChannel" in window ? new BroadcastChannel("outbox") : null;

export function opened() {
  database ??= new Promise((done) => {
    try {
      const request = indexedDB.open("pumpwright", 1);
      request.onupgradeneeded = () => request.result.createObjectStore("outbox", { keyPath: "key" });
      request.onsuccess = () => done(request.result);
      request.onerror = request.onblocked = () => done(null);
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

// Every act that the bench does not have yet, as they were pressed.
export async function all() {
  const kept = await soon(ask("readonly", (acts) => acts.getAll())).catch(() => []);
  return inOrder([...kept, ...held.filter((act) => !kept.some((other) => other.key === act.key))]);
}

function letGo({ key }) {
  const at = held.findIndex((other) => other.key === key);
  if (at >= 0) held.splice(at, 1);
}

export async function put(act) {
  const size = act.fields.reduce((sum, [, value]) => sum + (value.size ?? 0), 0);
  const kept = size > LARGEST_KEPT ? Promise.reject() : ask("readwrite", (acts) => acts.put(act), "strict");
  await soon(kept).catch(() => {
    letGo(act);
    held.push({ ...act, held: true });
  });
  kept.then(() => letGo(act), () => {});
  tell?.postMessage("");
}

export async function remove(act) {
  letGo(act);
  await soon(ask("readwrite", (acts) => acts.delete(act.key))).catch(() => {});
  tell?.postMessage("");
}

// Another page of this browser changed what waits.
export function onchange(act) {
  if (tell) tell.onmessage = act;
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

// Sends an act. It landed, it is refused, or it waits; the bench knows it again by its id.
export async function deliver(act, late) {
  const data = act.files ? new FormData() : new URLSearchParams();
  // Words stand before files.
  if (late) data.append("act_at", zoned(act.pressed));
  for (const [name, value] of act.fields) data.append(name, value);
  let response, page;
  try {
    const signal = AbortSignal.timeout(act.files ? PATIENCE.files : PATIENCE.text);
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
