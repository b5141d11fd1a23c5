// Fields of the file: read back while typing, Enter keeps, Esc restores.
const WAIT_MS = 180;
let waiting = 0, asked = 0;
const entry = (field) => field.closest("form[data-entry]");
const main = (field) => field.name === "value" && field.type !== "hidden" && entry(field);
const was = (field) => field.tagName === "SELECT" ? [...field.options].find((one) => one.defaultSelected)?.value ?? "" : field.defaultValue;

function shown(form) {
  const field = form.querySelector(".field-row [name=value]");
  form.querySelector(".keep").hidden = field.value === was(field);
}
function quiet() { for (const form of document.querySelectorAll("form[data-entry]")) shown(form); }
quiet();
document.addEventListener("swapped", quiet);

async function readBack(field) {
  const form = entry(field), said = form.querySelector(".echo"), turn = ++asked;
  if (!field.value.trim() || field.tagName === "SELECT") { said.textContent = ""; return; }
  try {
    const reply = await fetch(`/file/echo?${new URLSearchParams({ at: form.dataset.entry, value: field.value })}`);
    if (!reply.ok || turn !== asked) return;
    const read = await reply.json();
    said.textContent = read.wrong ? `${read.wrong}.`.replace(/\?\.$/, "?") : read.says ? `= ${read.says}` : "";
  } catch { /* the frame says when the server is gone */ }
}
document.addEventListener("input", (event) => {
  if (!main(event.target)) return;
  shown(entry(event.target));
  clearTimeout(waiting);
  waiting = setTimeout(() => readBack(event.target), WAIT_MS);
});
document.addEventListener("change", (event) => { if (main(event.target)) shown(entry(event.target)); });
document.addEventListener("keydown", (event) => {
  const field = event.target;
  if (!(field instanceof HTMLElement) || !main(field)) return;
  if (event.key === "Escape" && field.value !== was(field)) {
    field.value = was(field);
    entry(field).querySelector(".echo").textContent = "";
    shown(entry(field));
    event.preventDefault();
  }
  if (event.key === "Enter" && field.tagName === "TEXTAREA" && !event.shiftKey && field.rows < 3 && !field.value.includes("\n")) {
    event.preventDefault();
    entry(field).requestSubmit(entry(field).querySelector(".keep"));
  }
});
