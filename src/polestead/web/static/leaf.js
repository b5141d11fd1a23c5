// Leaves of results: tell the server how wide this device is, so that drawings are drawn for it and never scaled.
const kind = () => (innerWidth < 768 ? "narrow" : innerWidth < 1100 ? "mid" : "wide");
const told = () => (document.cookie.match(/(?:^|; )width=(\w+)/) || [])[1] || "wide";
function tell() {
  if (told() === kind()) return;
  document.cookie = `width=${kind()}; path=/; max-age=31536000; samesite=strict`;
  if (told() === kind()) location.reload();
}
tell();
addEventListener("resize", () => { clearTimeout(tell.later); tell.later = setTimeout(tell, 400); });
