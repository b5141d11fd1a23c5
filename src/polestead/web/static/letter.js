// The letter: a blank is read when it is left; what is wrong stands beside it, and goes once it is mended.
// Without this the letter says the same when it is sent.
const asked = new Map();

async function read(field) {
  const blank = field.dataset.blank, given = field.value, wrong = document.getElementById(`b-${blank}-wrong`);
  if (asked.get(blank) === given) return;
  asked.set(blank, given);
  try {
    const reply = await fetch(`/letter/read?${new URLSearchParams({ blank, value: given })}`);
    if (!reply.ok || asked.get(blank) !== given) return;
    const told = (await reply.json()).wrong;
    wrong.querySelector("p").textContent = told;
    wrong.hidden = !told;
    if (told) field.setAttribute("aria-invalid", "true");
    else field.removeAttribute("aria-invalid");
  } catch { asked.delete(blank); }  // the frame says when the server is gone
}
document.addEventListener("focusout", (event) => {
  if (event.target.dataset && event.target.dataset.blank) read(event.target);
});
document.addEventListener("swapped", () => asked.clear());
