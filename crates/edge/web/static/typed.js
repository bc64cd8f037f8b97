// What a person typed and has not sent: it outlives a fresh page, and a reload.

const FIELDS = "input:not([type=hidden], [type=submit]), select, textarea";

// A form is the same where it asks the same of the same thing.
function named(form) {
  const about = [...form.querySelectorAll("input[type=hidden]")].filter((at) => !["id", "act_seen", "back"].includes(at.name));
  return `${form.getAttribute("action")} ${about.map((at) => `${at.name}=${at.value}`).join(" ")}`;
}

function changed(at) {
  if (at.type === "file") return at.files.length > 0;
  if (at.matches("[type=checkbox], [type=radio]")) return at.checked !== at.defaultChecked;
  if (!at.matches("select")) return at.value !== at.defaultValue;
  const drawn = [...at.options].findIndex((option) => option.defaultSelected);
  return at.selectedIndex !== Math.max(drawn, 0);
}

// Forms with something typed that is not sent. What was refused is typed as well, though the bench drew it.
export function typed() {
  const forms = [...document.querySelectorAll("form[data-live]")].filter((form) => !form.dataset.sent);
  const seen = new Map();
  return forms.flatMap((form) => {
    const name = named(form);
    const number = seen.get(name) ?? 0;
    seen.set(name, number + 1);
    const refused = form.querySelector(".refusal");
    const fields = [...form.querySelectorAll(FIELDS)].filter((at) => at.name && (changed(at) || (refused && at.type !== "file" && at.value)));
    return fields.length ? [{ name, number, fields: fields.map(said) }] : [];
  });
}

const said = ({ name, type, value, checked, files }) => ({ name, type, value, checked, files: files?.length ? files : null });

// Puts it back where the same forms stand; gives the words that have no place any more.
export function put(all) {
  const forms = [...document.querySelectorAll("form[data-live]")];
  return all.flatMap(({ name, number, fields }) => {
    const form = forms.filter((form) => named(form) === name)[number];
    const lost = fields.filter((one) => !form || !into(form, one));
    if (form && lost.length < fields.length) form.closest("details")?.setAttribute("open", "");
    return lost.filter(({ type }) => !["checkbox", "radio", "file"].includes(type)).map(({ value }) => value);
  });
}

function into(form, { name, type, value, checked, files }) {
  const same = [...form.elements].filter((at) => at.name === name && at.type === type);
  const at = same.find((at) => !/checkbox|radio/.test(type) || at.value === value);
  if (!at) return false;
  if (type === "file") {
    if (files instanceof FileList) at.files = files;
  } else if (/checkbox|radio/.test(type)) at.checked = checked;
  else at.value = value;
  return type.startsWith("select") ? at.value === value : true;
}

const place = () => `typed ${location.pathname}`;

export function keep() {
  try {
    const all = typed().map((one) => ({ ...one, fields: one.fields.filter(({ type }) => type !== "file") }));
    if (all.length) sessionStorage.setItem(place(), JSON.stringify(all));
    else sessionStorage.removeItem(place());
  } catch {
    // A browser that keeps nothing loses it with the page.
  }
}

// Before the page is another.
export function forget() {
  try {
    sessionStorage.removeItem(place());
  } catch {
    // Nothing was kept.
  }
}

// Gives the words that have no place any more.
export function restore() {
  try {
    return put(JSON.parse(sessionStorage.getItem(place())) ?? []);
  } catch {
    return [];
  }
}
